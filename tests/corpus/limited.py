"""Read each folder named on standard input in a process of its own, and print what that took.

This is a limit, not a measurement: a file that holds the reader is ended by the kernel.
"""

from __future__ import annotations

import json
import os
import resource
import sys
from pathlib import Path

from footprint.read import read

SECONDS_ALLOWED = 10  # of the processor, before the kernel ends the process
BYTES_ALLOWED = 2**30  # of addresses, beyond those of the program itself


def memory(field: str) -> int:
    """Return bytes of memory of this process."""
    rows = Path("/proc/self/status").read_text(encoding="utf-8").splitlines()
    return next(int(row.split()[1]) * 1024 for row in rows if row.startswith(field))


def codes_within_limits(folder: str) -> list[str]:
    """Return the codes that reading a folder leads to, under limits that the kernel keeps."""
    allowed = memory("VmSize") + BYTES_ALLOWED
    resource.setrlimit(resource.RLIMIT_AS, (allowed, allowed))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS_ALLOWED, SECONDS_ALLOWED))
    return [one.code for one in read(Path(folder))[1]]


def measured(folder: str) -> dict[str, object]:
    """Return codes, seconds of the processor and megabytes beyond the program itself."""
    before = memory("VmRSS")
    receive, send = os.pipe()
    child = os.fork()
    if not child:
        try:
            os.write(send, json.dumps(codes_within_limits(folder)).encode())
        finally:
            os._exit(0)
    os.close(send)
    _, _, usage = os.wait4(child, 0)
    with os.fdopen(receive, "rb") as pipe:
        codes = json.loads(pipe.read() or b"null")
    seconds = usage.ru_utime + usage.ru_stime
    return {"codes": codes, "seconds": seconds, "mib": (usage.ru_maxrss * 1024 - before) / 2**20}


if __name__ == "__main__":
    for line in sys.stdin:
        print(json.dumps(measured(line.rstrip("\n"))), flush=True)  # noqa: T201  the answer to the test
