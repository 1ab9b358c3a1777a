"""Memory that is let go of goes back to the machine, where the C library can do so."""

import subprocess
import sys

import pytest

ROUND = """
import threading
from toptank.shop.cache.memory import few_heaps, give_back

def held():
    with open("/proc/self/statm") as told:
        return int(told.read().split()[1]) * 4096

few_heaps()
def work():
    kept = [bytes(50_000) for _ in range(2_000)]   # 100 MB in pieces that no mapping of their own holds
    del kept[::2]
    held_by_thread.append(kept)
held_by_thread = []
threads = [threading.Thread(target=work) for _ in range(4)]
for one in threads: one.start()
for one in threads: one.join()
full = held()
held_by_thread.clear()
give_back()
print((full - held()) / 1e6)
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only there is there anything to do")
def test_what_threads_have_let_go_of_is_given_back() -> None:
    told = subprocess.run([sys.executable, "-c", ROUND], capture_output=True, text=True, check=True)
    assert float(told.stdout) > 150.0  # of 200 MB held until then
