"""The cooling loop, drawn with the temperatures, flows and heats of one duty."""


def loop(number: int) -> None:
    """Put the drawing here, for the job of that number."""
