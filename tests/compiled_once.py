"""Templates and addresses of the pages compiled once a process, though each test makes an app of its own."""

from __future__ import annotations

from collections.abc import Callable
from functools import partialmethod
from types import CodeType

from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket
from werkzeug.routing import Rule


class CompiledOnce(BytecodeCache):
    """Templates compiled once a process: each test has pages of its own, and compiling is most of their cost."""

    def __init__(self) -> None:
        self.compiled: dict[str, tuple[str, CodeType | None]] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take what was compiled of the very same words."""
        checksum, code = self.compiled.get(bucket.key, ("", None))
        if checksum == bucket.checksum:
            bucket.code = code

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled."""
        self.compiled[bucket.key] = bucket.checksum, bucket.code


def compile_once() -> None:
    """From now on, in this process and in those that are forked from it.

    What builds an address depends on its rule alone, and is nearly all that making an app costs.
    """
    Environment.__init__ = partialmethod(Environment.__init__, bytecode_cache=CompiledOnce())
    compiled: dict[tuple[str, bool, str], Callable[..., tuple[str, str]]] = {}
    work = Rule._compile_builder

    def known(self: Rule, append_unknown: bool = True) -> Callable[..., tuple[str, str]]:
        key = (self.rule, append_unknown, repr((self.host, self.subdomain, self.defaults)))
        if key not in compiled:
            compiled[key] = work(self, append_unknown)
        return compiled[key]

    Rule._compile_builder = known
