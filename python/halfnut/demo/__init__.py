"""The demonstration: a portable truss telescope, its job, and the machines that it is made on."""

from pathlib import Path

__all__ = ["FOLDER"]

FOLDER = Path(__file__).parent
