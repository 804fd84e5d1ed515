"""What holds for every test: Ctrl-C is heard, by this process and by those it starts.

A shell that starts a run in the background has it ignore SIGINT, and what is ignored stays ignored in children; the tests
of Ctrl-C would wait for ever.
"""

from __future__ import annotations

import signal

signal.signal(signal.SIGINT, signal.default_int_handler)
