"""What may not be written down: paths of one machine, hosts of a registry, links that lead nowhere."""

import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import unquote

# Written in pieces, so that this file does not hold what it looks for.
MACHINE = re.compile(
    r"/(?:" + "|".join(("work", "tmp", "root", "farm", "home", "Users")) + r")/|\." + r"library\b|[A-Z]:\\" + "Users"
)
HOSTS = (("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("debian", "org"), ("anaconda", "org"))
REGISTRY = re.compile(r"\b(?:" + "|".join(r"\.".join(host) for host in HOSTS) + r")\b")
FENCED = re.compile(r"^(```|~~~).*?^\1", re.MULTILINE | re.DOTALL)
LINK = re.compile(r"!?\[[^\]]*\]\(\s*<?([^)\s>]+)>?(?:\s+\"[^\"]*\")?\s*\)|^\[[^\]]+\]:\s*(\S+)", re.MULTILINE)
ELSEWHERE = re.compile(r"^(?:[a-z][a-z0-9+.-]*:|#)")


def _lines_with(pattern: re.Pattern[str], paths: list[Path]) -> list[str]:
    found: list[str] = []
    for path in paths:
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue
        lines = enumerate(text.splitlines(), start=1)
        found += [f"{path.name}:{number} {line.strip()[:100]}" for number, line in lines if pattern.search(line)]
    return found


def test_no_tracked_file_names_a_path_of_one_machine(
    tracked: list[Path], refuse: Callable[[str, list[str]], None]
) -> None:
    refuse("A path of one machine means nothing on the next:", _lines_with(MACHINE, tracked))


def test_no_tracked_file_names_the_host_of_a_registry(
    tracked: list[Path], refuse: Callable[[str, list[str]], None]
) -> None:
    refuse("Packages come from wherever the machine is told to look:", _lines_with(REGISTRY, tracked))


def test_every_relative_link_leads_somewhere(tracked: list[Path], refuse: Callable[[str, list[str]], None]) -> None:
    offenders: list[str] = []
    for page in (path for path in tracked if path.suffix == ".md"):
        links = [first or second for first, second in LINK.findall(FENCED.sub("", page.read_text(encoding="utf-8")))]
        targets = [link for link in links if not ELSEWHERE.match(link)]
        offenders += [
            f"{page.name}: {target}"
            for target in targets
            if not (page.parent / unquote(target.partition("#")[0])).exists()
        ]
    refuse("These links lead nowhere:", offenders)
