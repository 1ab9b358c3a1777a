"""`python -m toptank`: the command line, where no script stands on the path."""

from toptank.interfaces.cli.main import main

if __name__ == "__main__":
    main()
