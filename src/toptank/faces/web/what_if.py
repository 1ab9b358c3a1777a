"""The strip under every page after the sheet: what the gauge would do on another day."""


def what_if_strip(number: int) -> None:
    """Put the strip here, for the job of that number."""
