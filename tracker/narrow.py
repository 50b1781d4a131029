"""What a value of any kind is, said so that types know what is in it: a bare `isinstance` leaves that unknown."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any, TypeGuard


def is_mapping(value: object) -> TypeGuard[Mapping[str, Any]]:
    """Tell whether it has keys and values, in whatever kind of mapping."""
    return isinstance(value, Mapping)


def is_keyed(value: object) -> TypeGuard[dict[str, Any]]:
    """Tell whether it is a record as JSON has them."""
    return isinstance(value, dict)


def is_list(value: object) -> TypeGuard[list[Any]]:
    return isinstance(value, list)


def is_several(value: object) -> TypeGuard[Collection[Any]]:
    """Tell whether it holds several of a kind; a text or a mapping is one thing."""
    return isinstance(value, list | tuple | set | frozenset)
