"""One wearer's measurements: each taken with a tape or estimated from those that were."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from numbers import Real
from typing import Literal, Self

from panelwright.body.estimates import complete
from panelwright.body.refusal import refuse_contradictions, refuse_missing, refuse_out_of_bounds
from panelwright.body.term import TermId
from panelwright.body.terms import TERMS, find_term
from panelwright.body.units import Unit, format_angle, format_length
from panelwright.errors import InputError, MeasurementError
from panelwright.quotation import quoted

Source = Literal["taken", "estimated"]
ESTIMATED_MARK = "estimated: measure before cutting"
# A neutral reference has a digit, so that a bare name does not slip in.
REF_PATTERN = r"^(?=[a-z-]*[0-9])[a-z][a-z0-9-]{0,30}$"


@dataclass(frozen=True)
class Value:
    """One measurement; its amount stays out of `repr`, which ends up in logs.

    Attributes:
        term: what was measured.
        amount: mm; radians for an angle.
        source: `taken` or `estimated`.
    """

    term: TermId
    amount: float = field(repr=False)
    source: Source


@dataclass(frozen=True, repr=False)
class Measurements:
    """All the measurements of one wearer, complete and without contradiction; hashable.

    `measurements["waist_girth"]` is the waist girth in mm; angles are in radians. `Measurements.of` makes
    one from what was taken.

    Attributes:
        ref: neutral reference of the wearer, `w-07`; never a name.
        values: one for each of `TERMS`, in that order.

    Raises:
        InputError: if the reference is not neutral, or a term is missing or out of order.
        MeasurementError: if no wearer can have these measurements.
    """

    ref: str
    values: tuple[Value, ...]

    def __post_init__(self) -> None:
        check_ref(self.ref)
        if tuple(value.term for value in self.values) != tuple(TERMS):
            raise InputError("measurements need one value for each term, in the order of the terms", self.ref)
        for value in self.values:
            refuse_out_of_bounds(TERMS[value.term], value.amount, Unit.CM)
        refuse_contradictions({value.term: value.amount for value in self.values}, Unit.CM, self.estimated)

    @classmethod
    def of(cls, ref: str, taken: Mapping[str, float] | Mapping[TermId, float], unit: Unit = Unit.MM) -> Self:
        """The measurements of a wearer from those that were taken; the rest is estimated.

        Args:
            ref: neutral reference, `w-07`.
            taken: term id -> mm (radians for `shoulder_slope`), the required ones at least.
            unit: the unit that the person used: errors are worded in it; it changes no number.

        Raises:
            InputError: for an unknown term or a reference that is not neutral.
            MeasurementError: if a required one is missing, or no wearer can have these.

        >>> girths = {"bust_girth": 880, "underbust_girth": 750, "waist_girth": 720, "hip_girth": 960}
        >>> wearer = Measurements.of("w-07", girths | {"back_neck_to_waist": 400})
        >>> wearer["waist_girth"], round(wearer["bust_point_span"])
        (720.0, 182)
        """
        known = {find_term(name).id: _number(name, amount) for name, amount in taken.items()}
        refuse_missing(known)
        for id, amount in known.items():
            refuse_out_of_bounds(TERMS[id], amount, unit)
        refuse_contradictions(known, unit)
        amounts = complete(known)
        estimated = [id for id in amounts if id not in known]
        refuse_contradictions(amounts, unit, estimated)
        return cls(ref, tuple(Value(id, amounts[id], "taken" if id in known else "estimated") for id in TERMS))

    def __repr__(self) -> str:
        return f"Measurements({self.ref!r}, {len(self.values) - len(self.estimated)} taken)"

    def __getitem__(self, term: TermId) -> float:
        return self._by_term[term].amount

    @cached_property
    def _by_term(self) -> dict[TermId, Value]:
        return {value.term: value for value in self.values}

    def value(self, term: TermId) -> Value:
        """The measurement with its source."""
        return self._by_term[term]

    @property
    def taken(self) -> tuple[TermId, ...]:
        """Ids of the measurements that were taken, in the order of the terms."""
        return tuple(value.term for value in self.values if value.source == "taken")

    @property
    def estimated(self) -> tuple[TermId, ...]:
        """Ids of the measurements to take before cutting, in the order of the terms."""
        return tuple(value.term for value in self.values if value.source == "estimated")

    @property
    def cup(self) -> float:
        """Bust girth less underbust girth, mm."""
        return self["bust_girth"] - self["underbust_girth"]

    def text(self, term: TermId, unit: Unit = Unit.CM) -> str:
        """A measurement as people read it: `18.2 cm (estimated: measure before cutting)`."""
        value = self._by_term[term]
        is_angle = TERMS[term].quantity == "angle"
        amount = format_angle(value.amount) if is_angle else format_length(value.amount, unit)
        return amount if value.source == "taken" else f"{amount} ({ESTIMATED_MARK})"

    def scaled(self, factor: float) -> "Measurements":
        """A body of the same shape, `factor` times as large: every length, taken or estimated; no angle.

        Raises:
            MeasurementError: if that takes a measurement out of its possible bounds.
        """
        return Measurements(
            self.ref,
            tuple(
                value if TERMS[value.term].quantity == "angle" else replace(value, amount=value.amount * factor)
                for value in self.values
            ),
        )


def check_ref(ref: str) -> None:
    """Raise InputError if a reference is not neutral: `w-07`."""
    if not re.fullmatch(REF_PATTERN, ref):
        raise InputError(
            f"{quoted(ref)} is not a neutral reference: use small letters, digits and hyphens "
            "with at least one digit, like w-07, and no name",
            "ref",
        )


def _number(name: str, amount: object) -> float:
    if isinstance(amount, bool) or not isinstance(amount, Real):
        raise MeasurementError(f"{find_term(name).label} must be a number, not {type(amount).__name__}", name)
    try:
        return float(amount)
    except OverflowError:
        return math.inf
