from pathlib import Path
from typing import Any


def write_page(found: dict[str, Any], docs: Path) -> None: ...
