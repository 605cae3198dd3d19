"""halfnut edge-life."""

from halfnut.cli.asking import command

edge_life = command("tool_life", called="edge-life", flags={"life_min": "--life"})
