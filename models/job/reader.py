"""A job file, read and checked, step by step.

file -> text (source) -> items with lines (tree) -> known keys and types (schema) ->
the room and what stands in it (premises), products, zones with their rules, links ->
everything fits (checks, carve_check) -> Job.
"""

from __future__ import annotations

from pathlib import Path

from models.job.carve_check import check_carving
from models.job.checks import Placed, check_plan
from models.job.data import Job, Product
from models.job.features import slid_by
from models.job.item import Item
from models.job.links import read_links
from models.job.measures import Measures, read_measures
from models.job.names import check_unique
from models.job.override import Override, overridden
from models.job.premises import Premises, premises_notes, read_premises
from models.job.products import product_notes, read_product
from models.job.schema import validate
from models.job.source import read_source
from models.job.supply import read_breakage, read_spare
from models.job.tree import parse_tree
from models.job.zones import Ground, read_zones
from models.lengths import TICKS_PER_INCH, TICKS_PER_MM

_TAPE_STEPS = (TICKS_PER_MM // 10, TICKS_PER_INCH)


def read_job(path: Path) -> Job:
    """The job in a file, checked: everything in it can be laid out.

    Raises models.job.errors.JobError for anything else: one line naming the file, the
    line, the entry, what is wrong and what would be right.
    """
    return read_text(read_source(path), str(path))


def read_text(text: str, file: str, override: Override | None = None) -> Job:
    """The job in a text; ``file`` is what errors call it. Raises JobError.

    With an ``override`` it is the job with something else laid in one zone, its usual limits
    and checks those of what is laid then.
    """
    root = parse_tree(text, file)
    validate(root)
    if override is not None:
        root = overridden(root, override)
    measures = read_measures(root)
    names = (item.group["name"] for item in root.list_of("products"))
    check_unique((name.text, name) for name in names)
    premises = read_premises(root, measures)
    products = tuple(read_product(item, measures) for item in root.list_of("products"))
    job = _job(root, premises, products, measures)
    _check_fit(root, premises)
    check_carving(job, root, measures)
    return job


def _job(root: Item, premises: Premises, products: tuple[Product, ...], measures: Measures) -> Job:
    """Everything read, not yet checked to fit."""
    by_name = {product.name: product for product in products}
    zones = read_zones(root, Ground(premises, by_name, root.find("rules"), measures))
    links, link_notes = read_links(root.list_of("links"), zones.layings, by_name)
    spare = read_spare(root)
    currency = root.find("currency")
    notes = premises_notes(premises, measures)
    notes += tuple(note for product in products for note in product_notes(product))
    return Job(
        name=root.group["job"].text,
        system=measures.system,
        tape_step=_read_tape_step(root, measures),
        room=premises.room.ring,
        walls=premises.room.walls,
        columns=premises.columns,
        doors=premises.doors,
        axes=tuple(premises.axes.values()),
        features=tuple(premises.features.values()),
        products=products,
        zones=zones.layings,
        links=links,
        spare_percent=spare.percent,
        spare_units=spare.units,
        spare_carton_per=spare.carton_per,
        breakage_percent=read_breakage(root),
        currency="" if currency is None else currency.text,
        closure=premises.room.closure,
        notes=notes + zones.notes + link_notes,
    )


def _check_fit(root: Item, premises: Premises) -> None:
    """Everything stands in the room and apart; without zones it leaves one floor."""
    columns = [
        Placed(f"column '{column.name}'", column.outline, item)
        for column, item in zip(premises.columns, root.list_of("columns"), strict=True)
    ]
    features = [
        Placed(
            f"feature '{feature.name}'",
            feature.outline,
            item,
            slid_by(feature, premises.axes[feature.axis]),
        )
        for feature, item in zip(premises.features.values(), root.list_of("features"), strict=True)
    ]
    room = premises.room.ring
    check_plan(room, root.group["room"], columns, features, whole=not root.list_of("zones"))


def _read_tape_step(root: Item, measures: Measures) -> int:
    """The smallest step marked on site, within reason."""
    item = root.find("tape_step")
    if item is None:
        return measures.pick("1/16 in", "1 mm")
    step = measures.size(item)
    if not _TAPE_STEPS[0] <= step <= _TAPE_STEPS[1]:
        raise item.error(
            f"{measures.show(step)} is no step a tape is marked in", "write 0.1 mm to 1 in"
        )
    return step
