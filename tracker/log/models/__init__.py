"""The tables of the log, as typed SQLAlchemy models, by what they are about.

A load is kept as it was typed: decimal text and unit. Nothing here knows what a page or a file looks like.
"""

from __future__ import annotations

from typing import Any

from tracker.log.columns import Base
from tracker.log.models.conditioning import Piece, PieceClock, PieceOption, PieceScore
from tracker.log.models.goals import Goal
from tracker.log.models.groups import (
    ClassMember,
    ClassTime,
    ClassWave,
    Group,
    GroupCoach,
    GroupMember,
    GymClass,
)
from tracker.log.models.history import Change, Meta
from tracker.log.models.people import Account, BodyMass, Member, RestDay
from tracker.log.models.places import KitItem, Place
from tracker.log.models.plans import MemberStep, MemberWave, PlannedSet, StepPiece, Wave, WaveStep
from tracker.log.models.training import Lift, LiftedSet, RepMax, Session

__all__ = [
    "MODELS",
    "Account",
    "BodyMass",
    "Change",
    "ClassMember",
    "ClassTime",
    "ClassWave",
    "Goal",
    "Group",
    "GroupCoach",
    "GroupMember",
    "GymClass",
    "KitItem",
    "Lift",
    "LiftedSet",
    "Member",
    "MemberStep",
    "MemberWave",
    "Meta",
    "Piece",
    "PieceClock",
    "PieceOption",
    "PieceScore",
    "Place",
    "PlannedSet",
    "RepMax",
    "RestDay",
    "Session",
    "StepPiece",
    "Wave",
    "WaveStep",
]

MODELS: dict[str, type[Any]] = {mapper.class_.__tablename__: mapper.class_ for mapper in Base.registry.mappers}
