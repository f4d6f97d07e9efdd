"""The fitting notes of several wearers, each found by whose they are."""

from collections.abc import Iterable, Sequence

from panelwright.body.measurements import Measurements
from panelwright.errors import InputError
from panelwright.fitting.fitting import Fitting
from panelwright.quotation import quoted


def fittings_of(wearers: Iterable[Measurements], fittings: Sequence[Fitting]) -> dict[Measurements, Fitting]:
    """The notes of each wearer who has some.

    Raises:
        InputError: if notes are of nobody here or of two people with one reference, or somebody has two files of them.
    """
    known = tuple(dict.fromkeys(wearers))
    found: dict[Measurements, Fitting] = {}
    for fitting in fittings:
        own = [wearer for wearer in known if wearer.ref == fitting.wearer]
        if not own:
            refs = ", ".join(dict.fromkeys(wearer.ref for wearer in known))
            raise InputError(
                f"there are fitting notes of {quoted(fitting.wearer)}, and nothing is made for anybody of that "
                f"reference, only for {refs}; leave them out, or give the measurements that they go with",
                "fitting",
            )
        if len(own) > 1:
            raise InputError(
                f"two people have the reference {quoted(fitting.wearer)}, so that nobody can say whose the fitting "
                "notes are; give one of them another reference",
                "fitting",
            )
        if own[0] in found:
            raise InputError(
                f"there are two files of fitting notes of {quoted(fitting.wearer)}; put them into one, in the order in "
                "which they were pinned",
                "fitting",
            )
        found[own[0]] = fitting
    return found
