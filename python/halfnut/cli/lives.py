"""halfnut tool-life."""

from halfnut.cli.asking import command

tool_life = command("tool_life", flags={"life_min": "--life"})
