"""`plimsoll block check` and `plimsoll block template`."""

import html
import re
from pathlib import Path

from rich.console import Console

from bot.files.block_file import read_block
from bot.files.template import template
from bot.render.blocks import block_preview
from bot.render.problems import problem_line
from core.programme.problems import Severity


def check_block(file: Path, console: Console, errors: Console) -> int:
    """Print what is in a block, or every problem."""
    try:
        content = file.read_bytes()
    except OSError as error:
        errors.print(f"Cannot read {file}: {error.strerror}.", markup=False)
        return 2
    result = read_block(content, file.name)
    if isinstance(result, list):
        for problem in sorted(result, key=lambda found: found.severity is Severity.WARNING):
            errors.print(problem_line(problem), markup=False)
        wrong = sum(problem.severity is Severity.ERROR for problem in result)
        errors.print(f"{wrong} to mend. Nothing is stored.", markup=False)
        return 1
    console.print(
        html.unescape(re.sub(r"<[^>]+>", "", block_preview(result.block, whole=True))), markup=False
    )
    for warning in result.warnings:
        console.print(problem_line(warning), markup=False)
    return 0


def write_template(file: Path, console: Console, errors: Console) -> int:
    """Write the empty form; what is there already is never written over."""
    if file.suffix.casefold() != ".xlsx":
        return _refused(errors, f"Give the file a name that ends in .xlsx: {file.name}.xlsx")
    try:
        with file.open("xb") as target:
            target.write(template())
    except FileExistsError:
        return _refused(errors, f"{file} is there already, and is left as it is. Give another name.")
    except OSError as error:
        return _refused(errors, f"Cannot write {file}: {error.strerror}.")
    console.print(
        f"{file} is written. Open it, write over the examples, and look at it with: plimsoll block check {file}",
        markup=False,
        highlight=False,
        soft_wrap=True,
    )
    return 0


def _refused(errors: Console, words: str) -> int:
    errors.print(words, markup=False, highlight=False, soft_wrap=True)
    return 2
