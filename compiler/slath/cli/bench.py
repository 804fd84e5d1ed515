"""The command that opens the designer's page."""

from __future__ import annotations

from pathlib import Path

import click

from slath.cli.asking import file_argument, workshop_option
from slath.cli.leaving import Exit, leave
from slath.cli.telling import say


@click.command(short_help="See the basket in the browser while you write it.")
@file_argument
@workshop_option
@click.option("--port", type=click.IntRange(0, 65535), default=0, metavar="N", help="Left out: any that is free.")
@click.option("--no-open", is_flag=True, help="Only print the address.")
def bench(file: Path, workshop: Path | None, port: int, *, no_open: bool) -> None:
    """See the basket in the browser while you write it: drawings, notes, numbers and pages, each time you save.

    The page is for this machine alone, and nothing of yours is written. Ctrl-C ends it.
    """
    import secrets  # noqa: PLC0415 - `--help` needs none of it
    import socket  # noqa: PLC0415
    import webbrowser  # noqa: PLC0415

    import uvicorn  # noqa: PLC0415

    from slath.bench.followed import Followed  # noqa: PLC0415
    from slath.bench.server import HOST, address, application  # noqa: PLC0415

    listening = socket.socket()
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
    except OSError as problem:
        leave(Exit.SURROUNDINGS_AT_FAULT, f"Error: port {port} cannot be had: {problem.strerror}; try another.")
    with listening:
        own = listening.getsockname()[1]
        token = secrets.token_urlsafe(16)
        followed = Followed(file, workshop)
        followed.look()
        say(f"{address(token, own)}\nStop with Ctrl-C.")
        if not no_open:
            webbrowser.open(address(token, own))
        config = uvicorn.Config(
            application(followed, token, own), log_level="critical", access_log=False, timeout_graceful_shutdown=1
        )
        server = uvicorn.Server(config)
        server.run(sockets=[listening])
