"""`panelwright paper`: a pattern file to sheets."""

from argparse import Namespace

from panelwright.app.output_folder import open_folder
from panelwright.app.paper import PrintJob
from panelwright.app.stale_sheets import stale_sheets
from panelwright.cli.console import Console
from panelwright.cli.given import given_files, given_folder, given_paper
from panelwright.output.pattern_file import read_pattern


def run(arguments: Namespace, console: Console) -> int:
    """Print the pattern into PDF files; returns the exit status."""
    choice = given_paper(arguments)
    (path,) = given_files(arguments, "a pattern file")
    cutting = read_pattern(path)
    title = cutting.pattern.title or cutting.pattern.design
    folder = open_folder(given_folder(arguments, f"{path.stem}-paper"))
    written = PrintJob(cutting, title, choice).write_sheets(folder, console.progress)
    others = stale_sheets(folder, written)
    facts = {
        "status": 0,
        "command": "paper",
        "pattern": str(path),
        "folder": str(folder),
        "files": [str(file) for file in written],
        "other_sheets": [str(file) for file in others],
    }
    lines = [f"The sheets of {path.name} are in {folder}:", *(f"  {file}" for file in written)]
    lines += [f"  was here before, perhaps of another pattern: {file}" for file in others]
    console.answer(facts, "\n".join([*lines, "Print at 100 % and measure the square on the first page."]))
    return 0
