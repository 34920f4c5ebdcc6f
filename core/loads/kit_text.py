"""A kit as plain lines, which `core.loads.kit_words` reads back as the same kit."""

from collections.abc import Iterable, Mapping

from core.loads.kit import Bar, Handles, Kit, Plates, Run, Stack
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.units import Mass, Unit, plain


def kit_lines(kit: Kit, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[str, ...]:
    """Return what there is as lines, in the order of the kit; nothing of what is not there, but always who is near.

    Args:
        kit: What there is.
        catalogue: For the names of the exercises that a bar or a machine is for.
    """
    unit = kit.unit
    lines = (
        _bars(kit, catalogue),
        "" if kit.collars is None else f"collars {_list((kit.collars,), unit)} together",
        _line("plates", _plates(kit.plates, unit)),
        _line("full size", _list(kit.full_size, unit)),
        _line("dumbbells", _masses_and_runs(kit, unit)),
        _line("single dumbbells", _list(kit.lone_dumbbells, unit)),
        "" if kit.handles is None else _handles(kit.handles, unit),
        _line("kettlebells", _list(kit.kettlebells, unit)),
        _line("single kettlebells", _list(kit.lone_kettlebells, unit)),
        "" if kit.stack_step is None else f"stack by {_list((kit.stack_step,), unit)}",
        *(f"stack {_stack(each, unit, catalogue)}" for each in kit.stacks),
        "" if kit.assistance is None else f"assistance {_stack(kit.assistance, unit, catalogue)}",
        _line("bands", _bands(kit.bands)),
        "" if kit.bodyweight_step is None else f"belt by {_list((kit.bodyweight_step,), unit)}",
        "belt with plates" if kit.belt else "",
        _line("added", _list(kit.added, unit)),
        f"safety arms {'yes' if kit.safety_arms else 'no'}",
        f"alone {'yes' if kit.usually_alone else 'no'}",
    )
    return tuple(line for line in lines if line)


def _line(head: str, rest: str) -> str:
    return f"{head} {rest}" if rest else ""


def _write(mass: Mass, *, bare: bool) -> str:
    """Write a mass: without its unit only where all of its line is in that of the kit."""
    return plain(mass.value) if bare else f"{plain(mass.value)} {mass.unit}"


def _are_bare(masses: Iterable[Mass], unit: Unit) -> bool:
    return all(mass.unit is unit for mass in masses)


def _list(masses: tuple[Mass, ...], unit: Unit) -> str:
    bare = _are_bare(masses, unit)
    return (" " if bare else ", ").join(_write(mass, bare=bare) for mass in masses)


def _plates(plates: tuple[Plates, ...], unit: Unit) -> str:
    bare = _are_bare((one.mass for one in plates), unit)
    last = "" if not plates or plates[-1].pairs is not None else " plenty"
    return (
        " ".join(
            _write(one.mass, bare=bare)
            + (f" x{one.pairs}" if one.pairs is not None and not bare else "")
            + (f"x{one.pairs}" if one.pairs is not None and bare else "")
            for one in plates
        )
        + last
    )


def _masses_and_runs(kit: Kit, unit: Unit) -> str:
    ends = (mass for run in kit.dumbbell_runs for mass in (run.first, run.last, run.step))
    bare = _are_bare((*kit.dumbbells, *ends), unit)
    runs = (_run(run, bare=bare) for run in kit.dumbbell_runs)
    return ", ".join((*(_write(mass, bare=bare) for mass in kit.dumbbells), *runs))


def _run(run: Run | Stack, *, bare: bool) -> str:
    first, last = (run.first, run.last) if isinstance(run, Run) else (run.start, run.top)
    return f"{_write(first, bare=bare)} to {_write(last, bare=bare)} by {_write(run.step, bare=bare)}"


def _bars(kit: Kit, catalogue: Mapping[str, Exercise]) -> str:
    usual = () if kit.bar is None else (Bar(name="", mass=kit.bar),)
    bars = (*usual, *kit.bars)
    bare = _are_bare((bar.mass for bar in bars), kit.unit)
    head = "bar" if len(bars) == 1 else "bars"
    return _line(head, ", ".join(_bar(bar, catalogue, bare=bare) for bar in bars))


def _bar(bar: Bar, catalogue: Mapping[str, Exercise], *, bare: bool) -> str:
    name = "" if bar.name == f"{bar.mass} bar" else f"{bar.name} "
    return f"{name.lstrip()}{_write(bar.mass, bare=bare)}{_for(bar.exercises, catalogue)}"


def _for(keys: tuple[str, ...], catalogue: Mapping[str, Exercise]) -> str:
    names = (catalogue[key].name.casefold() if key in catalogue else key for key in keys)
    return f" for {' and '.join(names)}" if keys else ""


def _handles(handles: Handles, unit: Unit) -> str:
    most = () if handles.most is None else (handles.most,)
    bare = _are_bare((handles.mass, *most), unit)
    parts = [f"adjustable handles {_write(handles.mass, bare=bare)}"]
    if handles.plates:
        parts.append(f"plates {_plates(handles.plates, unit)}")
    parts += [f"up to {_write(mass, bare=bare)}" for mass in most]
    if handles.count != 2:
        parts.append(f"{handles.count} handle{'' if handles.count == 1 else 's'}")
    return ", ".join(parts)


def _stack(stack: Stack, unit: Unit, catalogue: Mapping[str, Exercise]) -> str:
    bare = _are_bare((stack.start, stack.top, stack.step), unit)
    adds = f", add {_list(stack.adds, unit)}" if stack.adds else ""
    return f"{_run(stack, bare=bare)}{adds}{_for(stack.exercises, catalogue)}"


def _bands(names: tuple[str, ...]) -> str:
    """Write the bands; one alone whose name is of several words keeps a comma, so that it is read as one."""
    return f"{names[0]}," if len(names) == 1 and " " in names[0] else ", ".join(names)
