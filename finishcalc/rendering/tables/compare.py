"""Sizes, and sizes by cloths, as tables of words with their notes, for the page of text and for Markdown."""

from finishcalc.comparing.cloths import Cell, ClothComparison
from finishcalc.comparing.sizes import AS_IT_IS, Comparison, Refit, Row
from finishcalc.measures.length import Length, Size
from finishcalc.measures.money import Money
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Cover
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cautions import Caution
from finishcalc.plans.pieced.refit import Fit
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.pages.batting import batting_cell
from finishcalc.rendering.pages.cover import covered_words, finished_hang, hang_words, target_words
from finishcalc.rendering.pages.edge import OTHERS
from finishcalc.rendering.pages.page import Group, Head, Page, Paragraph, Table, sentences
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.outlines import size_outlines
from finishcalc.rendering.writing import SAMPLE_MARK, Contents, hours_words, notation_for, notation_of, sample_note
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import Audience, InUnit
from finishcalc.wording.words import capital, counted


def sizes_page(comparison: Comparison, contents: Contents) -> Page:
    """Make the page of a comparison: a row a size, what to know about them, and their outlines to one scale."""
    first = comparison.rows[0].result
    notation = notation_for(first, contents)
    groups: list[Group] = [
        (_comparison_table(comparison, contents, notation),),
        *sample_notes(comparison, contents),
        *size_notes(comparison, contents, notation),
    ]
    if outlines := size_outlines(comparison, notation_of(first)):
        groups.append((Drawing("sizes", tuple(outlines), notation),))
    return _page(f"Sizes of {plain(first.resolved.project.title)}", groups, first)


def _page(title: str, groups: list[Group], first: Finishing) -> Page:
    return Page(Head("", title), tuple(groups), made=first.resolved.project.job.date)


def cloths_page(cloths: ClothComparison, contents: Contents) -> Page:
    """Make the page of the cloths: a row a size, a column a cloth, and what to know about them."""
    first = cloths.comparison.rows[0].result
    notation = notation_for(first, contents)
    sampled = any(cell.result.priced_on_samples for cells in cloths.cells for cell in cells)
    key = [_cloths_key(cloths), *[sample_note("sample rates", contents.reader)] * sampled]
    groups: list[Group] = [
        (_cloths_table(cloths, contents, notation),),
        *((Paragraph(text, small=True),) for text in key if contents.prices),
        *size_notes(cloths.comparison, contents, notation),
    ]
    return _page(f"Sizes and cloths for {plain(first.resolved.project.title)}", groups, first)


def sample_notes(comparison: Comparison, contents: Contents) -> list[Group]:
    """Explain the mark of samples, where a total has one."""
    sampled = contents.prices and any(row.result.priced_on_samples for row in comparison.rows)
    return [(Paragraph(sample_note("sample rates", contents.reader), small=True),)] * sampled


def size_notes(comparison: Comparison, contents: Contents, notation: Notation) -> list[Group]:
    """Say what covers hang like, how a pieced design was fitted, and the cautions."""
    named = [(notation.show(row.name), told_cautions(row, contents)) for row in comparison.rows]
    return [
        (sentences("Covers", _cover_notes(comparison, notation)),),
        (sentences("Refitted", _refit_notes(comparison, notation)),),
        (sentences("Please note", cautions_by_name(named, contents.reader, notation)),),
    ]


def told_cautions(row: Row, contents: Contents) -> tuple[Caution, ...]:
    """Give the cautions of a row, without those of its price where prices are left out."""
    if contents.prices:
        return row.cautions
    of_price = row.result.price_cautions
    return tuple(each for each in row.cautions if each not in of_price and each.code != "namesakes")


def _comparison_table(comparison: Comparison, contents: Contents, notation: Notation) -> Table:
    """Set a row for each size. Hours are the studio's alone; a total that rests on a sample rate has a mark."""
    head, align = ["", f"Top, {notation.units}", "Backing", "Batting", "Binding"], "lllll"
    rows = [_row(row, notation) for row in comparison.rows]
    if contents.reader == "studio":
        head, align = [*head, "Planned"], align + "r"
        for cells, row in zip(rows, comparison.rows, strict=True):
            cells.append(hours_words(row.result.hours.planned))
    if contents.prices:
        currency = comparison.rows[0].result.quote.currency.code
        head, align = [*head, f"Total, {currency}", "Differs"], align + "rr"
        for cells, row in zip(rows, comparison.rows, strict=True):
            cells += [total_cell(row.result, notation), _difference(comparison, row, notation)]
    return _wanted(Table(head, align, rows))


def _wanted(table: Table) -> Table:
    """Drop the columns that say "none" in every row."""
    kept = [n for n in range(len(table.head)) if n < 2 or {row[n] for row in table.rows} != {"none"}]
    rows = [[row[n] for n in kept] for row in table.rows]
    return Table([table.head[n] for n in kept], "".join(table.align[n] for n in kept), rows)


def _row(row: Row, notation: Notation) -> list[str]:
    result = row.result
    return [
        notation.show(row.name),
        size_words(result.plans.top.shape, notation),
        backing_cell(result, notation),
        batting_cell(result.plans.batting, notation),
        binding_cell(result, notation),
    ]


def _difference(comparison: Comparison, row: Row, notation: Notation) -> str:
    first = row.name == AS_IT_IS and row.change is None
    return "" if first else signed(comparison.difference(row), notation)


def total_cell(result: Finishing, notation: Notation) -> str:
    """Write the total, marked where it rests on a sample rate."""
    mark = f"{NO_BREAK}{SAMPLE_MARK}" if result.priced_on_samples else ""
    return notation.bare_money(result.quote.total) + mark


def _cloths_table(cloths: ClothComparison, contents: Contents, notation: Notation) -> Table:
    """Set a row for each size and a column for each cloth, with the total of a quote that has this backing.

    The cheapest is said in words; cost is the studio's alone.
    """
    pieced = any(row.result.plans.pieced for row in cloths.comparison.rows)
    blocks = ["Blocks"] if pieced else []
    names = [_cloth_name(cell, notation) for cell in cloths.cells[0]]
    head = ["", f"Top, {notation.units}", *blocks, *names, "Batting", "Binding"]
    rows = []
    for row, cells in zip(cloths.comparison.rows, cloths.cells, strict=True):
        laid = [_cloth_cell(cell, contents, notation) for cell in cells]
        result = row.result
        rows.append(
            [
                notation.show(row.name),
                size_words(result.plans.top.shape, notation),
                *([_blocks(result)] if pieced else []),
                *laid,
                batting_cell(result.plans.batting, notation),
                binding_cell(result, notation),
            ]
        )
    return _wanted(Table(head, "l" * len(head), rows))


def _cloths_key(cloths: ClothComparison) -> str:
    """Explain the figures beside the cloths."""
    currency = cloths.cells[0][0].result.quote.currency.code
    key = f"After each backing: the total of the quote with it, {currency}"
    return f"{key}; cheapest: the least in its row." if len(cloths.cells[0]) > 1 else f"{key}."


def _cloth_name(cell: Cell, notation: Notation) -> str:
    backing = cell.result.plans.backing
    return capital(notation.show(backing.fabric.name)) if backing else cell.cloth


def _cloth_cell(cell: Cell, contents: Contents, notation: Notation) -> str:
    backing = backing_cell(cell.result, notation)
    if not contents.prices:
        return backing
    option = chosen_backing(cell.result)
    cost = f", costs {notation.show(option.total_cost)}" if option and contents.reader == "studio" else ""
    total = total_cell(cell.result, notation)
    return f"{backing}{cost}; {total}" + (", cheapest" if cell.cheapest else "")


def _blocks(result: Finishing) -> str:
    top = result.resolved.project.top.pieced
    return f"{top.blocks.across} x {top.blocks.down}" if top and top.blocks else ""


def size_words(shape: Shape, notation: Notation) -> str:
    """Write the size without its unit, which the head has: "60 1/2 x 84", "round 70"."""
    across, down = (notation.number(side.to(notation.units), notation.units) for side in (shape.width, shape.length))
    if shape.name == "round":
        return f"round {across}"
    return f"oval {across} x {down}" if shape.name == "oval" else f"{across} x {down}"


def chosen_backing(result: Finishing) -> BackingOption | None:
    """Give the backing that is bought, or None."""
    return result.plans.backing.chosen if result.plans.backing else None


def backing_cell(result: Finishing, notation: Notation) -> str:
    """Write the cloth to buy for the backing, and its seams."""
    option = chosen_backing(result)
    if option:
        return _option(option, notation)
    return "supplied, sewn" if result.plans.backing else "none"


def _option(option: BackingOption, notation: Notation) -> str:
    amount = notation.show(InUnit(option.amount, option.fabric.per))
    seams = counted(option.layout.seams, "seam") if option.layout.seams else f"no{NO_BREAK}seam"
    return f"{amount}, {seams}"


def binding_cell(result: Finishing, notation: Notation) -> str:
    """Write the cloth for the binding."""
    plans = result.plans
    if plans.binding and not plans.binding.cut_length:
        return "from an offcut" if plans.binding.at_hand else f"from beside {OTHERS[plans.binding.beside]}"
    if plans.binding:
        return notation.show(InUnit(plans.binding.amount, plans.binding.fabric.per))
    return "hem" if plans.hem else "none"


def signed(amount: Money, notation: Notation) -> str:
    """Write a difference with its sign."""
    return ("+" if amount.minor > 0 else "") + notation.bare_money(amount)


def _cover_notes(comparison: Comparison, notation: Notation) -> list[str]:
    """Say how sizes hang on their beds and tables: once for all that hang alike."""
    alike: dict[str, list[str]] = {}
    for row in comparison.rows:
        if covers := row.result.plans.top.covers:
            hangs = target_words(covers, _finished(row, covers, notation), notation)
            alike.setdefault(hangs, []).append(f"{notation.show(row.name)} ({covered_words(covers.what, notation)})")
    return [f"{', '.join(names)}: {hangs}" for hangs, names in alike.items()]


def _refit_notes(comparison: Comparison, notation: Notation) -> list[str]:
    """Say for each size of a pieced design how it was fitted, how it hangs then, and the next best fit."""
    return [
        f"{notation.show(row.name)}: {_fit_words(row.refit, _finished(row, row.refit.hangs, notation), notation)}"
        for row in comparison.rows
        if row.refit
    ]


def _fit_words(refit: Refit, finished: str, notation: Notation) -> str:
    """Say how a pieced design was fitted to a target, how it hangs then, and the next best fit."""
    target = refit.target
    parts = [
        f"{notation.size(*target)} asked",
        _fit(refit.taken, target, notation),
        hang_words(refit.hangs, notation) if refit.hangs else "",
        finished,
        f"next best {_fit(refit.next_best, target, notation)}" if refit.next_best else "",
    ]
    return "; ".join(filter(None, parts))


def _fit(fit: Fit, target: Size, notation: Notation) -> str:
    rounding = {"from below": "rounded down to ", "from above": "rounded up to ", "between": ""}[fit.rounding]
    rounding = rounding if fit.off(target) or fit.wider else ""
    blocks = f"{fit.across} x {fit.down} block{'s' if fit.across * (fit.down or 0) > 1 else ''}" if fit.across else ""
    design = f"{rounding}{blocks}" if blocks else "the design unchanged"
    wider = f" with the last border cut {notation.show(fit.wider)} wider" if fit.wider else ""
    return f"{design}{wider}: {notation.size(*fit.size)}, {_off(fit, target, notation)}"


def _off(fit: Fit, target: Size, notation: Notation) -> str:
    """Say how far each side is off, where a tape shows it: "4 in less across"."""
    sides = ((fit.size.width - target.width, "across"), (fit.size.length - target.length, "down"))
    differences = [
        f"{notation.show(Length(abs(over.mm)))} {'more' if over.mm > 0 else 'less'} {side}"
        for over, side in sides
        if abs(over.mm) >= FINEST[notation.units].mm
    ]
    return " and ".join(differences) or "as asked"


def _finished(row: Row, covers: Cover | None, notation: Notation) -> str:
    plans = row.result.plans
    return finished_hang(covers, plans.quilting, Size(plans.top.shape.width, plans.top.shape.length), notation)


def cautions_by_name(named: list[tuple[str, tuple[Caution, ...]]], audience: Audience, notation: Notation) -> list[str]:
    """Write every caution once, after the names it is for unless it is for all; those of the same names together."""
    names_by_text: dict[str, list[str]] = {}
    for name, cautions in named:
        for caution in (caution for caution in cautions if caution.sentence.is_for(audience)):
            names = names_by_text.setdefault(notation.write(caution.sentence), [])
            names += [] if name in names else [name]
    texts_by_names: dict[tuple[str, ...], list[str]] = {}
    for text, names in names_by_text.items():
        texts_by_names.setdefault(tuple(names), []).append(text)
    everywhere = len({name for name, _ in named})
    return [
        f"{', '.join(names)}: {' '.join(texts)}" if len(names) < everywhere else text
        for names, texts in texts_by_names.items()
        for text in (texts if len(names) == everywhere else texts[:1])
    ]
