"""A real server in a process of its own, to be killed. It starts in a moment, since all is loaded before it forks.

Each line of standard input is a book's folder: a server over it is started, and its process and port
are said; when that process is gone, so is that.
"""

from __future__ import annotations

import os
import sys

from flask import Flask

from fieldbook.serving.server import prepared
from fieldbook.web import create_app


def start(app: Flask) -> int:
    """Fork a server that says its process and port, and runs until it is killed."""
    process = os.fork()
    if process == 0:
        server = prepared(app, 0)
        print(os.getpid(), server.bind_addr[1], flush=True)
        server.serve()
        os._exit(0)
    return process


def main() -> None:
    """A server for each line, one at a time."""
    apps: dict[str, Flask] = {}
    for line in sys.stdin:
        folder = line.strip()
        if folder not in apps:
            apps[folder] = create_app(folder)
        os.waitpid(start(apps[folder]), 0)
        print("gone", flush=True)


if __name__ == "__main__":
    main()
