"""halfnut alloy."""

from __future__ import annotations

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.material.alloys import alloy as find_alloy


@click.command(epilog='\b\nExample:\n  halfnut alloy 6061-T6\n  halfnut alloy "4130 normalised" --json')
@click.argument("name")
@with_evidence
@with_json
def alloy(name: str, evidence: bool, as_json: bool) -> None:
    """What is known of the alloy NAME, and where each figure comes from."""
    show(find_alloy(name), as_json, evidence=evidence)
