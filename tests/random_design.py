"""Designs at random over every option there is, written as a design file holds them: what the long proof makes."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

Record = dict[str, Any]

TOPS = ("straight", "scooped", "sweetheart", "v", "square")
HEMS = ("straight", "shaped", "pointed")
ZIPS = ("centred", "lapped", "exposed", "invisible")


@dataclass(frozen=True)
class RandomDesign:
    """A design file's document, and the names of the options that it uses."""

    document: Record
    options: frozenset[str]


class DesignChance:
    """Draws designs; one seed gives the same designs again."""

    def __init__(self, seed: int) -> None:
        self.chance = np.random.default_rng(seed)

    def block(self) -> Record:
        """Block options: strapless, or to the shoulder for straps and whole bodices."""
        straight = bool(self.chance.random() < 0.6)
        block: Record = {"centre_back_shape": "straight" if straight else "shaped"}
        if self.chance.random() < 0.55:
            block |= {"top": "shoulder", "panels": int(self.one(4, 4, 6))}
            block |= {f"{half}_princess_to": self.one("shoulder", "armhole") for half in ("front", "back")}
        else:
            block["panels"] = int(self.one(3, 4, 4, 5, 6))
        return block

    def design(self, block: Record) -> RandomDesign:
        """A design on that block."""
        used: set[str] = set()
        steps: list[Record] = []
        whole = block.get("top") == "shoulder" and self.chance.random() < 0.35
        hem = self._hem(used)
        if whole:
            steps += [self._bodice_top(used), hem]
        else:
            steps += [self._top_edge(used), hem]
        tied = not whole and self.chance.random() < 0.25
        if not whole and block.get("top") == "shoulder":
            steps += self._straps(used, tied)
        if tied:
            steps.append(self._back_tie(used))
        steps += self._closures(used, block, tied)
        if self.chance.random() < 0.3:
            steps.append(self._bones(used))
        document: Record = {
            "format": "panelwright-design/1",
            "ref": "proof-1",
            "title": "Proof",
            "block": block,
            "steps": steps,
            "finish": self._finish(used),
            "cloth_to_buy": self._cloths(used),
        }
        if "cloths" in document["finish"]:
            document["cloth_to_buy"] = {"silk": document["cloth_to_buy"]["outer"]}
        return RandomDesign(document, frozenset(used))

    def one(self, *choices: Any) -> Any:
        """One of the choices."""
        return choices[int(self.chance.integers(len(choices)))]

    def between(self, low: float, high: float) -> float:
        """A number, to a tenth of a millimetre."""
        return round(float(self.chance.uniform(low, high)), 2)

    def _top_edge(self, used: set[str]) -> Record:
        shape = self.one(*TOPS)
        used.add(f"top-edge {shape}")
        side = {"level": "upper-bust", "offset_cm": self.between(-2.0, -0.4)}
        low = {"straight": (-2.0, -0.5), "square": (-3.5, -1.0)}.get(shape, (-4.0, -1.5))
        step: Record = {"kind": "top-edge", "uid": "neckline", "shape": shape, "side": side}
        step["centre"] = {"level": "upper-bust", "offset_cm": self.between(*low)}
        if self.chance.random() < 0.4:
            step["back"] = {"level": "upper-bust", "offset_cm": self.between(-3.0, -0.5)}
        return step

    def _hem(self, used: set[str]) -> Record:
        shape = self.one(*HEMS)
        used.add(f"hem {shape}")
        if shape == "straight":
            level = {"level": self.one("top-hip", "lower-waist")}
            return {"kind": "hem", "uid": "hem", "shape": shape, "centre": level, "side": level}
        side = {"level": "top-hip", "offset_cm": self.between(1.0, 3.0)}
        centre = {"level": "top-hip", "offset_cm": self.between(-3.0, 0.0)}
        return {"kind": "hem", "uid": "hem", "shape": shape, "centre": centre, "side": side}

    def _bodice_top(self, used: set[str]) -> Record:
        shape = self.one("round", "v", "square")
        used |= {"bodice-top", f"bodice-top {shape}"}
        return {
            "kind": "bodice-top",
            "uid": "top",
            "shape": shape,
            "front_depth_cm": self.between(0.5, 9.0),
            "back_depth_cm": self.between(0.0, 5.0),
            "width_cm": self.between(0.0, 2.5),
            "armhole_lower_cm": self.between(0.0, 2.5),
        }

    def _straps(self, used: set[str], tied: bool) -> list[Record]:
        """Straps on three of four strapless tops that could have them; a back that is a tie leaves only the halter."""
        if self.chance.random() < 0.25:
            return []
        kind = "halter" if tied else self.one("grown", "grown", "separate", "separate", "halter", "halter")
        used |= {"strap", f"strap {kind}"}
        step: Record = {"kind": "strap", "uid": "straps", "type": kind, "width_cm": self.between(1.5, 4.5)}
        if kind == "grown":
            step["share_of_shoulder"] = self.between(0.2, 0.8)
            if self.chance.random() < 0.6:
                used.add("strap corner")
                step["corner"] = True
        if kind != "halter" and self.chance.random() < 0.4:
            used.add("strap wider at its foot")
            step["width_at_foot_cm"] = round(step["width_cm"] + self.between(0.5, 1.5), 2)
        if kind == "separate" and self.chance.random() < 0.5:
            used.add("strap crossed")
            step["crossed"] = True
        if kind == "halter":
            step["nape"] = self.one("seam", "one", "tie")
            used.add(f"halter {step['nape']}")
        return [step]

    def _back_tie(self, used: set[str]) -> Record:
        knot, end, misfit = self.one("double", "bow"), self.one("square", "pointed"), self.one("eased", "dart")
        used |= {"tie from side", f"tie {knot}", f"tie end {end}", f"tie {misfit}"}
        step: Record = {"kind": "tie", "uid": "tie", "from": "side", "knot": knot, "end": end, "misfit": misfit}
        if self.chance.random() < 0.35:
            used.add("tie grain along")
            step["grain_along"] = True
        if self.chance.random() < 0.35:
            used.add("tie length given")
            step["length_cm"] = self.between(45.0, 80.0)
        if self.chance.random() < 0.35:
            used.add("tie end width")
            step["end_width_cm"] = self.between(3.0, 6.0)
        return step

    def _closures(self, used: set[str], block: Record, tied: bool) -> Iterator[Record]:
        places = ["centre-front"] if tied else ["centre-back", "centre-front"]
        chances = {"centre-back": 0.75, "centre-front": 0.3}
        for place in places:
            if self.chance.random() < chances[place]:
                yield from self._centre(used, place, block)
        if not tied and block.get("panels") in (4, 6) and self.chance.random() < 0.25:
            kind = self.one("zip", "hooks", "tie")
            used |= {"closure side", f"closure {kind}"}
            step: Record = {"kind": "closure", "uid": "side-opening", "place": "side", "type": kind}
            if self.chance.random() < 0.5:
                used.add("closure on the right")
                step["hand"] = "right"
            yield step
        elif not tied and block.get("panels") in (4, 6) and self.chance.random() < 0.12:
            used.add("sash")
            yield {"kind": "tie", "uid": "sash", "from": "caught-in-side", "knot": self.one("double", "bow")}

    def _centre(self, used: set[str], place: str, block: Record) -> Iterator[Record]:
        kinds = ["zip", "zip", "lacing", "hooks", "buttons", "tie", "seam"]
        if place == "centre-front" or block["centre_back_shape"] == "straight":
            kinds.append("fold")
        kind = self.one(*kinds)
        uid = "front" if place == "centre-front" else "back"
        used |= {f"closure {place}", f"closure {kind}"}
        step: Record = {"kind": "closure", "uid": uid, "place": place, "type": kind}
        if kind == "zip":
            step["style"] = self.one(*ZIPS)
            used.add(f"zip {step['style']}")
        if kind == "lacing":
            step["gap_cm"] = self.between(2.0, 6.0)
            if self.chance.random() < 0.5:
                step["modesty_overlap_cm"] = 3
                used.add("modesty panel")
        if kind == "buttons":
            step["stand_cm"] = self.between(1.2, 2.0)
        if kind == "hooks" and self.chance.random() < 0.6:
            used.add("hooks underlap")
            step["underlap_cm"] = self.between(2.0, 4.0)
        if kind in ("zip", "hooks", "tie") and step.get("style") != "exposed" and self.chance.random() < 0.25:
            used.add("opening that ends early")
            step["opening_cm"] = self.between(12.0, 20.0)
        yield step
        if kind == "tie":
            count = int(self.chance.integers(1, 4))
            used.add("tie added")
            yield {"kind": "tie", "uid": f"{uid}-ties", "from": place, "count": count, "width_cm": 2.5}

    def _bones(self, used: set[str]) -> Record:
        used.add("bones")
        step: Record = {"kind": "bones", "uid": "bones", "bone": self.one("spiral", "flat", "plastic")}
        if self.chance.random() < 0.3:
            used.add("bone channels")
            step["channels"] = [{"line": "centre-front", "towards": "front-princess", "fraction": 0.5}]
        return step

    def _finish(self, used: set[str]) -> Record:
        facing = self.one("none", "full", "edge")
        used.add(f"facing {facing}")
        finish: Record = {"allowance_cm": self.one(1, 1.5), "facing": facing}
        if self.chance.random() < 0.4:
            finish["interfacing"] = "full" if facing == "none" else self.one("full", "facing")
            used.add(f"interfacing {finish['interfacing']}")
        if facing == "edge" and self.chance.random() < 0.4:
            used.add("facing of a given width")
            finish["facing_width_cm"] = self.between(4.0, 8.0)
        if self.chance.random() < (0.6 if facing == "edge" else 0.25):
            finish["lining"] = self.one("full", "to_facing") if facing == "edge" else "full"
            used.add(f"lining {finish['lining']}")
        if facing == "full" and self.chance.random() < 0.4:
            used.add("facing in the outer cloth")
            finish["cloths"] = {"outer": "silk", "facing": "silk"}
        if facing == "edge" and self.chance.random() < 0.4:
            finish["hem_facing_width_cm"] = self.between(3.0, 6.0)
            used.add("hem facing")
        if (facing != "none" or "lining" in finish) and self.chance.random() < 0.3:
            finish["turn_of_cloth_mm"] = self.between(0.5, 1.5)
            used.add("turn of cloth")
        return finish

    def _cloths(self, used: set[str]) -> Record:
        cloth: Record = {"width_cm": int(self.one(114, 140, 150))}
        if self.chance.random() < 0.5:
            cloth["folded"] = bool(self.chance.random() < 0.6)
        if self.chance.random() < 0.3:
            cloth["one_way"] = True
            used.add("cloth one way")
        return {"outer": cloth}
