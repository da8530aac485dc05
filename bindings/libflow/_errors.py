# SPDX-License-Identifier: MIT
"""What libflow raises when it is given something wrong."""

from __future__ import annotations

from typing import NoReturn


class Error(Exception):
    """Base of every exception that libflow raises on purpose."""


class InputError(Error, ValueError):
    """A value, name or file that cannot be used.

    The message reads ``<where>: <what>; allowed: <allowed>[; did you mean '<nearest>'?]``; the attributes hold its
    pieces.

    Attributes:
        where: the field, part or file position, e.g. ``"hose 'row 3', length"``
        what: what is wrong with it, with the value
        allowed: what would be accepted; may be empty
        nearest: the nearest valid name; may be empty
    """

    def __init__(self, message: str, where: str = "", what: str = "", allowed: str = "", nearest: str = "") -> None:
        super().__init__(message)
        self.where = where
        self.what = what
        self.allowed = allowed
        self.nearest = nearest

    def __reduce__(self):
        return type(self), (self.args[0], self.where, self.what, self.allowed, self.nearest)


class IllPosedError(Error):
    """Plumbing that cannot have an answer: no pressure anywhere, a place with no way out, and so on."""


def refuse(where: str, what: str, allowed: str) -> NoReturn:
    """Raises InputError."""
    raise InputError(f"{where}: {what}; allowed: {allowed}", where, what, allowed)
