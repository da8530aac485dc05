# SPDX-License-Identifier: MIT
"""Functions of the extension module as functions of Python, so that help() begins with their arguments."""

from __future__ import annotations

import ast
import functools
import inspect
from collections.abc import Callable, Iterable
from types import BuiltinFunctionType
from typing import Any


class _Word(str):
    """Shown as it is, without quotes."""

    __slots__ = ()

    def __repr__(self) -> str:
        return str(self)


def _annotation(node: ast.expr | None) -> Any:
    if node is None:
        return inspect.Parameter.empty
    name = ast.unparse(node)
    for prefix in ("libflow._libflow.", "numpy.typing.", "typing."):
        name = name.replace(prefix, "")
    return inspect.Parameter.empty if name in ("object", "Any") else _Word(name)


def _signature(line: str) -> inspect.Signature:
    """Of the line that pybind11 writes, "name(a: float, *, b: object = None) -> float"; SyntaxError for others."""
    given = ast.parse(f"def {line}: ...").body[0]
    assert isinstance(given, ast.FunctionDef)
    arguments, empty = given.args, inspect.Parameter.empty
    parameters = []
    places = [*arguments.posonlyargs, *arguments.args]
    for k, argument in enumerate(places):
        from_end = k - (len(places) - len(arguments.defaults))
        default = _Word(ast.unparse(arguments.defaults[from_end])) if from_end >= 0 else empty
        kind = inspect.Parameter.POSITIONAL_OR_KEYWORD
        parameters.append(
            inspect.Parameter(argument.arg, kind, default=default, annotation=_annotation(argument.annotation))
        )
    for argument, value in zip(arguments.kwonlyargs, arguments.kw_defaults):
        default = empty if value is None else _Word(ast.unparse(value))
        kind = inspect.Parameter.KEYWORD_ONLY
        parameters.append(
            inspect.Parameter(argument.arg, kind, default=default, annotation=_annotation(argument.annotation))
        )
    return inspect.Signature(parameters, return_annotation=_annotation(given.returns))


def _readable(function: BuiltinFunctionType, module: str) -> Callable[..., Any]:
    line, _, text = (function.__doc__ or "").partition("\n")
    try:
        signature = _signature(line)
    except (SyntaxError, ValueError):  # several signatures, or a default that is no expression: as it is
        return function

    @functools.wraps(function)
    def call(*args: Any, **kwargs: Any) -> Any:
        return function(*args, **kwargs)

    call.__doc__ = text.strip()
    call.__module__ = module
    call.__qualname__ = function.__name__
    call.__signature__ = signature  # type: ignore[attr-defined]
    return call


def make_readable(names: Iterable[str], namespace: dict[str, Any], module: str) -> None:
    """Puts a function of Python in the place of each built-in one that is named."""
    for name in names:
        if isinstance(namespace[name], BuiltinFunctionType):
            namespace[name] = _readable(namespace[name], module)
