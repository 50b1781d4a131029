"""A piece that belongs to a session of a wave, which else only a sheet brings about."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tracker.log.unit_of_work import Log


def put_into_step(log: Log, step_id: str, piece_id: str) -> None:
    from tracker.log.pieces import put_piece_into_step

    with log.act("put a piece into a session") as act:
        put_piece_into_step(act, step_id, piece_id)
