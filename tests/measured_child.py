"""What one run of the command takes: `python tests/measured_child.py check items/corner-block.yaml`.

Prints {"code", "seconds" of processor time, "megabytes" at its peak} as JSON. The kernel counts what the asking process
holds into the peak of a child that it starts; so ask through this module in a process of its own, which holds little.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys

# So that a run that would take the whole machine ends instead.
LIMIT = f"import resource; resource.setrlimit(resource.RLIMIT_AS, ({8 << 30}, {8 << 30})); "
COMMAND = [sys.executable, "-c", LIMIT + "from explainers.cli.main import main; main()"]

if __name__ == "__main__":
    code = subprocess.run([*COMMAND, *sys.argv[1:]], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    found = {"code": code, "seconds": used.ru_utime + used.ru_stime, "megabytes": used.ru_maxrss / 1024}
    json.dump(found, sys.stdout)
