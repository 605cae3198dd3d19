"""`python -m halfnut` is the command `halfnut`."""

from halfnut.cli import main

main()
