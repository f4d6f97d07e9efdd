"""Designs at random with every step of panel surgery, written as a design file holds them.

What is drawn has a chance to work: a dart is swung that is there, a frill goes on an edge that is free. Whether a place
is on a piece, or a slash leaves it, is left to chance and to the wearer.
"""

from typing import Any

import numpy as np

Record = dict[str, Any]
MOST_STEPS = 12


class SurgeryChance:
    """Draws designs of 2 to 12 steps; one seed gives the same designs again."""

    def __init__(self, seed: int) -> None:
        self.chance = np.random.default_rng(seed)

    def design(self) -> Record:
        """A design file's document."""
        self.waist = bool(self.chance.random() < 0.7)
        self.steps: list[Record] = []
        self.both = False
        self.whole = ["CF", "SF", "SB", "CB"]  # pieces that nothing was done to
        self.darts: dict[str, str] = {}  # line -> line that it opens into
        self.seams = ["side"]
        self.free = ["hem/line", "neck/line"]
        self._edges()
        if self.chance.random() < 0.5:
            self._join()
        wanted = 2 + int(self.chance.integers(0, MOST_STEPS - 1))
        for _ in range(40):
            if len(self.steps) >= wanted:
                break
            draw = self.one(
                self._join, self._join, self._swing, self._swing, self._gather, self._gather, self._split, self._split,
                self._spread, self._spread, self._frill, self._peplum, self._unfold, self._closure,
            )  # fmt: skip
            draw()
        return {
            "format": "panelwright-design/1",
            "ref": "proof-2",
            "title": "Proof",
            "block": {"centre_back_shape": self.one("straight", "shaped")},
            "steps": self.steps,
            "finish": {"allowance_cm": self.one(1, 1.5)},
        }

    def one(self, *choices: Any) -> Any:
        """One of the choices."""
        return choices[int(self.chance.integers(len(choices)))]

    def between(self, low: float, high: float) -> float:
        """A number of two decimals."""
        return round(float(self.chance.uniform(low, high)), 2)

    def _add(self, kind: str, **fields: Any) -> str:
        uid = f"{kind}-{len(self.steps)}"
        self.steps.append({"kind": kind, "uid": uid, **fields})
        return uid

    def _edges(self) -> None:
        top = {"level": "upper-bust", "offset_cm": self.between(-1.5, -0.5)}
        low = {"level": "waist" if self.waist else "top-hip"}
        self.steps += [
            {"kind": "top-edge", "uid": "neck", "shape": "straight", "centre": top, "side": top},
            {"kind": "hem", "uid": "hem", "shape": "straight", "centre": low, "side": low},
        ]

    def _closure(self) -> None:
        if any(step["kind"] == "closure" for step in self.steps) or len(self.steps) > 2:
            return
        self._add("closure", place="centre-back", type=self.one("zip", "hooks"))

    def _unfold(self) -> None:
        if not self.both and self.chance.random() < 0.4:
            self.both = True
            self._add("unfold")

    def _join(self) -> None:
        seam, first, second = self.one(
            ("front-princess", "CF", "SF"), ("front-princess", "CF", "SF"), ("back-princess", "SB", "CB")
        )
        if first not in self.whole or second not in self.whole:
            return
        self.whole = [piece for piece in self.whole if piece not in (first, second)]
        if seam == "front-princess" and self.waist and self.chance.random() < 0.85:
            uid = self._add("join", seam=seam, first=first, misfit="dart")
            self.darts[f"{uid}/dart"] = "hem/line"
        else:
            self._add("join", seam=seam, first=first, grain=self.one("square", "first"))

    def _swing(self) -> None:
        if not self.darts:
            return
        dart = self.one(*self.darts)
        to, low, high = self.one(
            ("side", 0.35, 0.75), ("side", 0.35, 0.75), ("neck/line", 0.1, 0.3), ("hem/line", 0.7, 0.9)
        )
        fields: Record = {"dart": dart, "to": {"line": to, "fraction": self.between(low, high)}}
        if to not in [*self.free, "side"]:
            return
        if self.chance.random() < 0.3 and len(self.darts) < 2:
            fields["share"] = self.between(0.3, 0.7)
        else:
            del self.darts[dart]
        uid = self._add("swing", **fields)
        self.darts[f"{uid}/dart"] = to

    def _gather(self) -> None:
        into_seam = [line for line, opens in self.darts.items() if opens == "side"]
        if not into_seam:
            return
        dart = self.one(*into_seam)
        del self.darts[dart]
        if self.chance.random() < 0.5:
            self._add("gather", dart=dart)
        else:
            self._add("gather", dart=dart, fullness="tucks", tuck_cm=self.between(1.0, 4.0))

    def _split(self) -> None:
        side = [piece for piece in ("SF", "SB") if piece in self.whole]
        if not side:
            return
        piece = self.one(*side)
        self.whole.remove(piece)
        before, behind = ("front-princess", "side") if piece == "SF" else ("side", "back-princess")
        way = self.one("line", "yoke", "panel")
        if way == "yoke":
            uid = self._add(
                "split", way=way, pieces=[piece], height={"level": "underbust", "offset_cm": self.between(-2, 2)}
            )
            self.seams.append(f"{uid}/line")
        elif way == "panel":
            self._add("split", way=way, pieces=[piece], line=before, towards=behind, fraction=self.between(0.35, 0.65))
        else:
            start = {"line": before, "level": "underbust", "offset_cm": self.between(-2, 2)}
            end = {"line": behind, "fraction": self.between(0.3, 0.7)}
            uid = self._add("split", pieces=[piece], start=start, end=end)
            self.seams.append(f"{uid}/line")

    def _spread(self) -> None:
        if not self.whole or not {"hem/line", "neck/line"} <= set(self.free):
            return
        piece = self.one(*self.whole)
        self.whole.remove(piece)
        amount = self.between(1.0, 8.0)
        fields: Record = {"open": "hem/line", "closed": "neck/line", "amount_cm": amount, "slashes": self.one(1, 2, 3)}
        if piece not in ("CF",) and self.chance.random() < 0.3:
            fields["closed_amount_cm"] = amount
        self._add("spread", piece=piece, **fields)

    def _peplum(self) -> None:
        if "hem/line" not in self.free or self.chance.random() < 0.5:
            return
        self.free.remove("hem/line")
        uid = self._add("peplum", line="hem/line", length_cm=self.between(12, 30), flare=self.between(1.0, 1.4))
        self.free.append(f"{uid}/edge")

    def _frill(self) -> None:
        line = self.one(*self.free, *self.seams)
        if self.chance.random() < 0.3:
            return
        if line in self.free:
            self.free.remove(line)
        self._add("frill", line=line, width_cm=self.between(2, 10), ratio=self.between(1.0, 2.5))
