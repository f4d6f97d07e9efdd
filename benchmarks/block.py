"""How long a block takes: the troupe's wearers, measurements to fitted pieces."""

from stopwatch import milliseconds, runs_asked, tell

from panelwright.app.demo.troupe import troupe
from panelwright.blocks.make_block import make_block

if __name__ == "__main__":
    runs = runs_asked(__doc__, 5)
    every: list[float] = []
    for dancer in troupe():
        wearer = dancer.wearer
        make_block(wearer)
        times = milliseconds(lambda wearer=wearer: make_block(wearer), runs)
        tell(f"block for {wearer.ref}", times)
        every += times
    tell("block, all wearers", every, 500)
