"""A closure in a design file."""

from typing import Any, ClassVar, Final, Literal, Self

from panelwright.design.buttons import Buttons
from panelwright.design.closure import ClosureStep
from panelwright.design.closure_opening import SHORTEST
from panelwright.design.fastening import Fastening, within
from panelwright.design.hooks import Hooks
from panelwright.design.lacing import Lacing
from panelwright.design.step_form import HeightForm, Length, StepForm, cm, mm
from panelwright.design.tied import Tied
from panelwright.design.zip import Zip, ZipStyle
from panelwright.errors import DesignError
from panelwright.pattern.closure import ClosurePlace

ClosureType = Literal["fold", "seam", "zip", "lacing", "hooks", "buttons", "tie"]

# Type -> field of the file -> what the fastening calls it. Every field but `style` is a length.
FIELDS: Final[dict[str, dict[str, str]]] = {
    "zip": {"style": "style", "teeth_width_cm": "teeth", "zip_cm": "given"},
    "lacing": {
        "gap_cm": "gap", "pitch_cm": "pitch", "eyelet_inset_cm": "inset", "cord_cm": "given",
        "modesty_overlap_cm": "behind",
    },
    "hooks": {"spacing_cm": "spacing", "underlap_cm": "underlap"},
    "buttons": {"stand_cm": "stand", "spacing_cm": "spacing"},
    "tie": {},
}  # fmt: skip
MAKERS: Final[dict[str, type[Any]]] = {
    "zip": Zip, "lacing": Lacing, "hooks": Hooks, "buttons": Buttons, "tie": Tied,
}  # fmt: skip
HELD: Final = ("gap_cm", "spacing_cm")  # lengths that have handles on the paper, of some fastenings
LONGEST: Final = 2000.0  # mm that a place may open
TEETH: Final = 6.0  # mm that an exposed zip shows unless told


class ClosureForm(StepForm):
    """A closure; what belongs to another type than its own is refused."""

    makes: ClassVar[type[Any]] = ClosureStep

    kind: Literal["closure"]
    place: ClosurePlace
    type: ClosureType
    down_to: HeightForm | None = None
    opening_cm: Length | None = None
    hand: Literal["left", "right"] | None = None
    style: ZipStyle | None = None
    teeth_width_cm: Length | None = None
    zip_cm: Length | None = None
    gap_cm: Length | None = None
    pitch_cm: Length | None = None
    eyelet_inset_cm: Length | None = None
    cord_cm: Length | None = None
    modesty_overlap_cm: Length | None = None
    spacing_cm: Length | None = None
    underlap_cm: Length | None = None
    stand_cm: Length | None = None

    def step(self) -> ClosureStep:
        """The step.

        Raises:
            DesignError: if a field does not belong to the type, or a number is out of range.
        """
        if self.hand is not None and self.place != "side":
            raise DesignError("closure: only a side opens on one hand; leave out hand", "hand")
        opening = None if self.opening_cm is None else mm(self.opening_cm)
        if opening is not None and (fault := within("its opening", opening, SHORTEST, LONGEST)):
            raise DesignError(f"closure: {fault}", "opening_cm")
        given = {name: getattr(self, name) for name in self._own() if getattr(self, name) is not None}
        known = FIELDS.get(self.type, {})
        for name in given:
            if name not in known:
                usual = f"it takes {', '.join(known)}" if known else "it takes none of its own"
                raise DesignError(f"closure: {name} does not belong to the type {self.type}; {usual}", name)
        return ClosureStep(
            self.uid,
            self.place,
            self._fastening(given) if self.type in MAKERS else self.type,  # type: ignore[arg-type]  # fold or seam
            self.down_to.height() if self.down_to else None,
            opening,
            self.hand or "left",
        )

    def _fastening(self, given: dict[str, Any]) -> Fastening:
        named = {FIELDS[self.type][name]: value if name == "style" else mm(value) for name, value in given.items()}
        if named.get("style") == "exposed":
            named.setdefault("teeth", TEETH)
        try:
            made: Fastening = MAKERS[self.type](**named)
        except DesignError as error:
            raise DesignError(f"closure: {error}", error.where) from error
        return made

    @classmethod
    def _own(cls) -> tuple[str, ...]:
        """The fields that belong to one type or another."""
        return tuple(dict.fromkeys(name for fields in FIELDS.values() for name in fields))

    @classmethod
    def of(cls, step: ClosureStep) -> Self:
        """The form of the step; what a fastening has by default is left out, unless a hand can move it."""
        how = step.fastening
        written = {} if isinstance(how, str) else _written(how)
        return cls.model_validate(
            {
                "kind": step.kind,
                "uid": step.uid,
                "place": step.place,
                "type": how if isinstance(how, str) else how.kind,
                "down_to": HeightForm.of_height(step.down_to) if step.down_to else None,
                "opening_cm": None if step.opening is None else cm(step.opening),
                "hand": step.hand if step.place == "side" and step.hand != "left" else None,
                **written,
            }
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """Where it ends."""
        return [("down_to", self.down_to)] if self.down_to else []


def _written(fastening: Fastening) -> dict[str, Any]:
    """The fields of a fastening that are not as they are by default, and what a hand can move: that is always said."""
    plain = MAKERS[fastening.kind]()
    if fastening.style == "exposed":
        plain = Zip("exposed", TEETH)
    own = FIELDS[fastening.kind]
    written = {name: getattr(fastening, known) for name, known in own.items()}
    written = {name: value for name, value in written.items() if name in HELD or value != getattr(plain, own[name])}
    if fastening.style == "exposed":
        written["style"] = "exposed"
    return {name: value if name == "style" else cm(value) for name, value in written.items()}
