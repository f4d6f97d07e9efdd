"""What was given on the command line, loaded: the wearer, the design, the paper."""

from argparse import Namespace
from datetime import date
from pathlib import Path

from panelwright.app.fitting_file import load_fitting
from panelwright.app.lays_file import LaysRecord, load_lays
from panelwright.app.paper import PaperChoice
from panelwright.body.measurement_file import load_measurements
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.units import Unit, parse_length
from panelwright.errors import InputError
from panelwright.fitting.fitting import Fitting
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.budget import MOST_CORES, QUICK_CLOCK, QUICK_SECONDS, USUAL_CORES, Budget, usable_cores
from panelwright.quotation import quoted

USUAL_SECONDS = 10.0


def given_files(arguments: Namespace, *wanted: str) -> list[Path]:
    """The files, one for each of the `wanted` words.

    Raises:
        InputError: if there are more or fewer.
    """
    files = [Path(name) for name in arguments.files]
    if len(files) != len(wanted):
        with_size = " besides --size" if getattr(arguments, "size", None) else ""
        raise InputError(
            f"`panelwright {arguments.command}` takes {' and '.join(wanted) or 'no file'}{with_size}, "
            f"but {len(files) or 'no'} {'file was' if len(files) == 1 else 'files were'} given",
            "command line",
        )
    for path in files:
        _refuse_folder(path)
    return files


def given_wearer(arguments: Namespace, *others: str) -> tuple[Measurements, list[Path]]:
    """The wearer, from --size or the first file, and the rest of the files, one for each of the `others`.

    Raises:
        InputError: if a file is missing or cannot be used, or there is no such size.
    """
    if arguments.size is not None:
        files = given_files(arguments, *others)
        return size(_whole_number(arguments.size)), files
    first, *rest = given_files(arguments, "a measurements file (or --size 88)", *others)
    return load_measurements(first), rest


def given_fitting(arguments: Namespace) -> Fitting | None:
    """The fitting notes after --fitting, or None.

    Raises:
        InputError: if the file cannot be used.
    """
    return None if arguments.fitting is None else load_fitting(Path(arguments.fitting))


def given_fittings(arguments: Namespace) -> tuple[Fitting, ...]:
    """The fitting notes after every --fitting, in order.

    Raises:
        InputError: if a file cannot be used.
    """
    return tuple(load_fitting(Path(name)) for name in arguments.fitting or ())


def given_lays(arguments: Namespace) -> LaysRecord | None:
    """The lays after --lays, or None.

    Raises:
        InputError: if the file cannot be used.
    """
    return None if arguments.lays is None else load_lays(Path(arguments.lays))


def refuse_fitting(arguments: Namespace) -> None:
    """Refuse fitting notes where no block is made.

    Raises:
        InputError: if some were given.
    """
    if arguments.fitting is not None:
        raise InputError(
            "--fitting changes a wearer's block: give it with measurements and a design, not with a drawn pattern",
            "fitting",
        )


def given_paper(arguments: Namespace, with_scale: bool = True) -> PaperChoice:
    """The paper, units and scales that were asked for, dated today; `with_scale` is False where --scale is no paper's.

    Raises:
        InputError: if one of them is not known.
    """
    scale: str | None = getattr(arguments, "scale", None) if with_scale else None
    return PaperChoice.named(arguments.paper, arguments.units, scale, made_on=date.today())


def given_unit(arguments: Namespace) -> Unit:
    """The unit that was asked for.

    Raises:
        InputError: if it is not known.
    """
    return PaperChoice.named(units=arguments.units).unit


def given_folder(arguments: Namespace, otherwise: str) -> Path:
    """Where to write."""
    return Path(arguments.out) if arguments.out is not None else Path(otherwise)


def given_planning(arguments: Namespace) -> Planning | None:
    """How hard to look for short lays: so many seconds for each cloth, or not at all.

    Raises:
        InputError: if it is no number that can be.
    """
    if arguments.lay_seconds is None:
        return None
    seconds = given_seconds(arguments.lay_seconds, "lay-seconds")
    return Planning(Budget(seconds), cores=min(usable_cores(), USUAL_CORES))


def given_budget(arguments: Namespace) -> Budget:
    """How long to look for a short lay, by --quick, --seconds or --moves; `USUAL_SECONDS` where none is given.

    Raises:
        InputError: if one of them is no number that can be.
    """
    moves = given_count(arguments.moves, "moves", 100_000)
    if arguments.quick:
        return Budget(QUICK_SECONDS * given_cores(arguments), moves, QUICK_CLOCK)
    if arguments.seconds is None:
        return Budget(USUAL_SECONDS if moves is None else None, moves)
    return Budget(given_seconds(arguments.seconds, "seconds"), moves)


def given_cores(arguments: Namespace) -> int:
    """How many searches to run at once, by --cores; otherwise two where there are two cores.

    With --moves it is one: two give another lay than one.

    Raises:
        InputError: if it is no number that can be.
    """
    cores = given_count(arguments.cores, "cores", 2)
    if cores is None:
        return 1 if arguments.moves is not None else min(usable_cores(), USUAL_CORES)
    if not 1 <= cores <= MOST_CORES:
        raise InputError(f"--cores is {cores}; give between 1 and {MOST_CORES}", "cores")
    return cores


def given_length(text: str | None, option: str, unit: Unit) -> float | None:
    """The length after an option that may be left out, mm; a number without a unit is in `unit`.

    Raises:
        InputError: if it is none.
    """
    if text is None:
        return None
    try:
        return parse_length(text, unit)
    except InputError as error:
        raise InputError(f"--{option}: {error}", option) from error


def given_seconds(text: str, option: str) -> float:
    """The number after an option.

    Raises:
        InputError: if it is none.
    """
    try:
        return float(text)
    except ValueError as error:
        raise InputError(f"--{option} takes a number like 60, not {quoted(text)}", option) from error


def given_out(arguments: Namespace, otherwise: str) -> Path:
    """The file to write.

    Raises:
        InputError: if it is a folder.
    """
    path = Path(otherwise if arguments.out is None else arguments.out)
    if _is_folder(path):
        raise InputError(f"{quoted(str(path))} is a folder: give a file like {otherwise}", "out")
    return path


def given_count(text: str | None, option: str, example: int) -> int | None:
    """The whole number after an option that may be left out.

    Raises:
        InputError: if it is none.
    """
    if text is None:
        return None
    if text.isascii() and text.isdigit() and len(text) < 16:
        return int(text)
    raise InputError(f"--{option} takes a whole number like {example}, not {quoted(text)}", option)


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):  # whoever reads or writes it says why it cannot be used
        return False


def _refuse_folder(path: Path) -> None:
    if _is_folder(path):
        raise InputError(f"{quoted(str(path))} is a folder: give a file", str(path))


def _whole_number(text: str) -> int:
    try:
        return int(text)
    except ValueError as error:
        raise InputError(f"--size takes a bust girth in whole cm like 88, not {quoted(text)}", "size") from error
