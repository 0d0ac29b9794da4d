"""A real server in a process of its own, to be killed. It starts in a moment, since all is loaded before it forks.

Each line of standard input is a book's folder and how large a file may grow, in bytes (0: as it likes): a server over
it is started, and its process and port are said; when that process is gone, so is that.
"""

from __future__ import annotations

import os
import resource
import sys

from flask import Flask

from fieldbook.serving.server import prepared
from fieldbook.web import create_app


def start(app: Flask, most_bytes: int) -> int:
    """Fork a server that says its process and port, and runs until it is killed."""
    process = os.fork()
    if process == 0:
        if most_bytes:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))
        server = prepared(app, 0)
        print(os.getpid(), server.bind_addr[1], flush=True)
        server.serve()
        os._exit(0)
    return process


def main() -> None:
    """A server for each line, one at a time."""
    apps: dict[str, Flask] = {}
    for line in sys.stdin:
        most_bytes, folder = line.strip().split(" ", 1)
        if folder not in apps:
            apps[folder] = create_app(folder)
        os.waitpid(start(apps[folder], int(most_bytes)), 0)
        print("gone", flush=True)


if __name__ == "__main__":
    main()
