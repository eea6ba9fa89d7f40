"""The commands and their options, with help that teaches by example."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from models import __version__
from solver.cli import commands
from solver.cli.exits import MEANINGS
from solver.cli.weighing import weigh_job

PROGRAM = "startrow"

ABOUT = """\
Find where to snap the chalk lines for a plank or tile floor, before the first unit
goes down: the start line, the cross line and the offset of every row. Three layouts
come out side by side, each checked again from its geometry alone, with papers to set
out from, to cut from and to order from.
"""

EXAMPLES = """\
examples:
  startrow scenarios                               jobs that come with the program
  startrow scenario reading-room --papers papers   solve one of them
  startrow new my-job.yaml                         start your own job file
  startrow check my-job.yaml                       see what was read before solving
  startrow solve my-job.yaml --papers papers       the three layouts and their papers
  startrow audit papers/layouts.json               check a saved result again
  startrow weigh my-job.yaml --papers weighed      one floor in several products
"""

SOLVE = """\
Read a job file, search for the three best layouts, check each one again from its
geometry alone, write the papers, and print the figures side by side.

Ctrl-C stops the search and keeps the best layouts so far: the papers are written and
marked incomplete. Ctrl-C a second time quits at once.
"""

SOLVE_EXAMPLES = """\
examples:
  startrow solve my-job.yaml --papers papers
  startrow solve my-job.yaml --papers papers --replace    write over older papers
  startrow solve my-job.yaml --papers papers --quiet      no progress, only the result
"""

AUDIT = """\
Check a saved layouts.json again from its geometry alone: the pieces tile the floor,
pieces of one unit really fit in it, every rule comes out as stated, and the order
adds up.
"""

CHECK = """\
Read a job file without solving it and print what was understood: the room with its
area, the walls, axes, features, products and rules, and where each limit comes from.
For a room walked with a tape it prints by how much the walk failed to close.
"""

NEW = """\
Write a job file to fill in, with a comment at every entry. A file that is there
already is never written over.
"""

WEIGH = """\
Solve the same floor in every product the job lists, or in each direction alone, and
set the outcomes side by side: units, cartons, waste, cost, cuts and broken rules. All
else stays as the job says; usual limits follow the product. Each alternative is checked
again from its geometry alone before a figure of it is shown. A product that cannot be
laid is told with the reason. Papers: weigh.csv, and a chart as PDF, PNG and SVG.

Ctrl-C keeps the alternatives solved so far and says which are missing. Ctrl-C a second
time quits at once.
"""

WEIGH_EXAMPLES = """\
examples:
  startrow weigh my-job.yaml --papers weighed                    every product of the job
  startrow weigh my-job.yaml --papers weighed --by directions    each direction alone
  startrow weigh my-job.yaml --papers weighed --by both          every pair of the two
  startrow weigh my-job.yaml --papers weighed --zone border      in another zone
"""

SCENARIO = """\
Solve one of the jobs that come with the program; 'startrow scenarios' lists them.
"""


def exit_table() -> str:
    """The exit codes and their meanings, one a line."""
    return "exit codes:\n" + "".join(f"  {code:>3}  {text}\n" for code, text in MEANINGS.items())


def parser() -> argparse.ArgumentParser:
    """The whole command line; ``run`` of the parsed arguments carries the command out."""
    top = argparse.ArgumentParser(
        prog=PROGRAM,
        description=ABOUT,
        epilog=EXAMPLES + "\n" + exit_table() + "\nset STARTROW_DEBUG=1 to see a traceback.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"{PROGRAM} {__version__}")
    add = top.add_subparsers(title="commands", metavar="COMMAND", required=True).add_parser
    _add_solve(add)
    _add_check(add)
    _add_new(add)
    _add_audit(add)
    _add_weigh(add)
    _add_scenarios(add)
    return top


_Add = Callable[..., argparse.ArgumentParser]
"""The subcommands' ``add_parser``."""


def _command(add: _Add, name: str, line: str, about: str, end: str) -> argparse.ArgumentParser:
    """One command with its help text as typed here."""
    return add(
        name,
        help=line,
        description=about,
        epilog=end,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )


def _add_solve(add: _Add) -> None:
    solve = _command(
        add, "solve", "solve a job and write its papers", SOLVE,
        SOLVE_EXAMPLES + "\n" + exit_table(),
    )  # fmt: skip
    solve.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
    _add_papers(solve)
    solve.set_defaults(run=commands.solve_job)


def _add_papers(command: argparse.ArgumentParser) -> None:
    """The options of every command that writes papers."""
    command.add_argument(
        "--papers", type=Path, required=True, metavar="FOLDER",
        help="where the papers go; made if it is not there",
    )  # fmt: skip
    command.add_argument(
        "--replace", action="store_true", help="write over papers that are there already"
    )
    command.add_argument("--quiet", action="store_true", help="show no progress")


def _add_check(add: _Add) -> None:
    check = _command(
        add, "check", "print what a job file says, without solving", CHECK,
        "example:\n  startrow check my-job.yaml\n",
    )  # fmt: skip
    check.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
    check.set_defaults(run=commands.check_job)


def _add_new(add: _Add) -> None:
    new = _command(
        add, "new", "start a job file of your own", NEW,
        "example:\n  startrow new my-job.yaml\n",
    )  # fmt: skip
    new.add_argument("file", type=Path, metavar="FILE", help="the job file to write")
    new.set_defaults(run=commands.new_job)


def _add_audit(add: _Add) -> None:
    audit = _command(
        add, "audit", "check a saved result again", AUDIT,
        "example:\n  startrow audit papers/layouts.json\n",
    )  # fmt: skip
    audit.add_argument("layouts", type=Path, metavar="LAYOUTS", help="a layouts.json")
    audit.set_defaults(run=commands.audit_result)


def _add_weigh(add: _Add) -> None:
    weigh = _command(
        add, "weigh", "solve one floor in several products or directions", WEIGH,
        WEIGH_EXAMPLES + "\n" + exit_table(),
    )  # fmt: skip
    weigh.add_argument("job", type=Path, metavar="JOB", help="the job file (YAML)")
    weigh.add_argument(
        "--zone", metavar="NAME", help="the zone to lay otherwise (if left out: the field)"
    )
    weigh.add_argument(
        "--by", choices=("products", "directions", "both"),
        help="what to vary (if left out: products if two or more can be laid, else directions)",
    )  # fmt: skip
    _add_papers(weigh)
    weigh.set_defaults(run=weigh_job)


def _add_scenarios(add: _Add) -> None:
    several = _command(
        add, "scenarios", "list the jobs that come with the program",
        "List the jobs that come with the program, to try it and to learn from.",
        "then:\n  startrow scenario NAME --papers papers\n",
    )  # fmt: skip
    several.set_defaults(run=commands.list_scenarios)
    one = _command(
        add, "scenario", "solve one of the jobs that come with the program", SCENARIO,
        "example:\n  startrow scenario reading-room --papers papers\n",
    )  # fmt: skip
    one.add_argument("name", metavar="NAME", help="a name from 'startrow scenarios'")
    _add_papers(one)
    one.set_defaults(run=commands.solve_scenario)
