"""How long a block takes: the troupe's wearers, measurements to fitted pieces, to upper bust and to shoulder."""

from stopwatch import milliseconds, runs_asked, tell

from panelwright.app.demo.troupe import troupe
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions

BLOCKS = {"to the upper bust": BlockOptions(), "to the shoulder": BlockOptions(top="shoulder")}

if __name__ == "__main__":
    runs = runs_asked(__doc__, 5)
    for name, options in BLOCKS.items():
        every: list[float] = []
        for dancer in troupe():
            wearer = dancer.wearer
            make_block(wearer, options)
            times = milliseconds(lambda wearer=wearer, options=options: make_block(wearer, options), runs)
            tell(f"block for {wearer.ref}, {name}", times)
            every += times
        tell(f"block {name}, all wearers", every, 500)
