"""Build the wheel, install it alone into a new environment, and use it there as a shop would.

    uv run python tools/try_wheel.py [--python 3.13]

Prints what each command took, what the environment weighs and its largest packages. The exit code says whether the demo
printed its answer, the server gave its first page and REST an answer, and the order came out as a PDF.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

ROOT = Path(__file__).parents[1]
LARGEST = 12


def said(words: list[str], folder: Path) -> str:
    """Run a command in an empty folder with a record of its own; return what it printed."""
    environment = {key: value for key, value in os.environ.items() if key not in ("VIRTUAL_ENV", "PYTHONPATH")}
    environment |= {"TOPTANK_STORE": str(folder / "shop" / "jobs.sqlite"), "UV_COMPILE_BYTECODE": "1"}
    started = time.monotonic()
    done = subprocess.run(words, cwd=folder, env=environment, capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(f"{' '.join(words)}: {done.returncode}\n{done.stdout[-2000:]}\n{done.stderr[-4000:]}")
    print(f"{time.monotonic() - started:6.1f} s  {' '.join(Path(word).name for word in words)}", flush=True)
    return done.stdout


def served(toptank: str, folder: Path) -> None:
    """Start the server, ask for the first page and one answer, and stop it."""
    environment = os.environ | {"TOPTANK_STORE": str(folder / "shop" / "jobs.sqlite")}
    with subprocess.Popen(
        [toptank, "serve", "--no-open", "--port", "0"], cwd=folder, env=environment, stdout=subprocess.PIPE, text=True
    ) as server:
        assert server.stdout is not None
        address = server.stdout.readline().split(" at ")[1].split()[0]
        for path, expected in (("", b"New job"), ("api/v1/boil?cap=15%20psi", b"degC")):
            with urllib.request.urlopen(address + path, timeout=300) as answer:
                if expected not in answer.read():
                    raise SystemExit(f"{address}{path} does not say {expected!r}")
        server.terminate()
    print("          the server gave its first page and an answer by REST")


def weight(folder: Path) -> int:
    return sum(one.stat().st_size for one in folder.rglob("*") if one.is_file() and not one.is_symlink())


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--python", default=f"{sys.version_info.major}.{sys.version_info.minor}")
    given = asked.parse_args()
    with tempfile.TemporaryDirectory(prefix="toptank-wheel-") as name:
        folder = Path(name)
        said(["uv", "build", "--wheel", "--quiet", "--out-dir", str(folder / "dist"), str(ROOT)], folder)
        (wheel,) = (folder / "dist").glob("*.whl")
        said(["uv", "venv", "--quiet", "--python", given.python, str(folder / "alone")], folder)
        python = str(folder / "alone" / "bin" / "python")
        said(["uv", "pip", "install", "--quiet", "--python", python, str(wheel)], folder)
        toptank = str(folder / "alone" / "bin" / "toptank")
        print(said([toptank, "--version"], folder).strip(), "on", said([python, "--version"], folder).strip())
        for developers in ("pytest", "playwright", "pandas", "numpyro"):
            found = subprocess.run([python, "-c", f"import {developers}"], capture_output=True).returncode == 0
            if found:
                raise SystemExit(f"{developers} is there: this is not what a shop has")
        said([toptank, "boil", "--cap", "15 psi"], folder)
        if "°F" not in said([toptank, "demo"], folder):
            raise SystemExit("the demo says nothing of a temperature")
        served(toptank, folder)
        said([toptank, "order", "demo", "--plan", "A", "--pdf", "order.pdf"], folder)
        if not (folder / "order.pdf").read_bytes().startswith(b"%PDF"):
            raise SystemExit("the order is no PDF")
        packages = next((folder / "alone" / "lib").glob("python*")) / "site-packages"
        parts = sorted(((weight(one), one.name) for one in packages.iterdir() if one.is_dir()), reverse=True)
        print(f"{weight(packages) / 1e6:,.0f} MB in all:", ", ".join(f"{n} {w / 1e6:.0f}" for w, n in parts[:LARGEST]))


if __name__ == "__main__":
    main()
