"""How long a whole garment takes: measurements and a design to PDFs of every kind, with the other files."""

import tempfile
from pathlib import Path

from stopwatch import milliseconds, runs_asked, tell

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.garment import Garment, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.garment_folder import write_garment
from panelwright.app.paper import PrintJob
from panelwright.body.measurements import Measurements


def print_sheets(garment: Garment, folder: Path) -> None:
    """The three PDFs alone."""
    PrintJob(garment.cutting, garment.design.title, block=garment.block.pattern).write_sheets(folder)


def measurements_to_pdf(wearer: Measurements, design: GarmentDesign, folder: Path) -> None:
    """The whole way."""
    print_sheets(make_garment(wearer, design), folder)


if __name__ == "__main__":
    runs = runs_asked(__doc__, 4)
    every: list[float] = []
    wearer = next(troupe()).wearer
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        for demo in designs():
            design = demo.design
            garment = make_garment(wearer, design)
            print_sheets(garment, folder)
            name = f"{design.ref} ({len(garment.cutting.pattern.pieces)} pieces)"
            tell(f"{name}, PDFs", milliseconds(lambda garment=garment: print_sheets(garment, folder), runs))
            tell(f"{name}, all files", milliseconds(lambda garment=garment: write_garment(garment, folder), runs))
            times = milliseconds(lambda design=design: measurements_to_pdf(wearer, design, folder), runs)
            tell(f"{name}, measurements to PDFs", times)
            every += times
    tell("all designs, measurements to PDFs", every, 1500)
