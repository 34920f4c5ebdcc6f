"""How a session ends, or does not begin: left out, how it felt, reps left, closed, on hold."""

from html import escape

from bot.messages import Action, Message, Rows
from bot.render import moving
from bot.render.dates import day_words
from bot.render.session_lines import head, item_line
from bot.render.session_views import SessionView
from bot.render.sessions_said import OLD_BUTTON


def not_today_screen(view: SessionView) -> Message:
    """Ask why a session is left out, or the rest of it."""
    begun = any(each.item.state == "done" for each in view.items)
    what = "Leave the rest of this session out?" if begun else "Not today."
    return Message(
        f"{head(view)}\n\n{what} What is in the way?",
        rows=(
            (view.button("No time", Action.LEAVE_OUT, 1), view.button("Away", Action.LEAVE_OUT, 4)),
            (view.button("Ill", Action.LEAVE_OUT, 2), view.button("Pain", Action.LEAVE_OUT, 3)),
            (view.button("Back", Action.BACK),),
        ),
    )


def other_day_screen(view: SessionView) -> Message:
    """Ask what shall become of a session that is not done today: at most four buttons, and back."""
    reason = {1: moving.REASONS["time"], 4: moving.REASONS["away"]}.get(view.reason, "")
    last_week = f"\nIt was not done last week either ({day_words(view.last_week)})." if view.last_week else ""
    lines = [head(view), "", f"{reason} What shall become of it?{last_week}", *moving.explained(view.moves)]
    chosen = [view.button(moving.label(each), Action.MOVE, place) for place, each in enumerate(view.moves)]
    drop = moving.LEAVE_OUT_AGAIN if view.last_week else moving.LEAVE_OUT
    return Message(
        "\n".join(lines),
        rows=(
            *((each,) for each in chosen),
            (view.button(drop, Action.DROP, view.reason),),
            (view.button("Back", Action.BACK),),
        ),
    )


def feel_screen(view: SessionView) -> Message:
    """Show what was done, and ask whether anything hurts."""
    asked = "Does anything else hurt?" if view.pained else "Does anything hurt?"
    lines = [head(view), "", *(item_line(each) for each in view.items), "", asked]
    if view.asks_signs:
        lines.append("Any heaviness, leaking, doming or bleeding? Tap Something hurts.")
    return Message(
        "\n".join(lines),
        rows=(
            (view.button("Nothing else" if view.pained else "Nothing hurts", Action.NOTHING_HURTS),),
            (view.button("Something hurts", Action.HURTS), view.button("Undo", Action.UNDO)),
        ),
    )


def left_screen(view: SessionView) -> Message:
    """Ask for reps left in the last set of the main lift."""
    main = view.main_done()
    name = escape(main.exercise.name) if main else "Main lift"
    return Message(
        f"{head(view)}\n\n{name}, last set: how many more could you have done?",
        rows=(
            tuple(
                view.button("4+" if number == 4 else str(number), Action.LEFT, number) for number in range(5)
            ),
            (view.button("Not sure", Action.LATER), view.button("Undo", Action.UNDO)),
        ),
    )


def closed_screen(view: SessionView) -> Message:
    """Show what was done and what comes next. What was left out by a slip of the thumb can be taken up again."""
    done = (
        []
        if view.state in ("left_out", "missed", "unsent", "moved")
        else ["", *(item_line(each) for each in view.items)]
    )
    end = ["", *view.closing] if view.closing else []
    closed = view.state == "left_out" or (view.state == "moved" and not view.stays_moved)
    again = closed and view.note != OLD_BUTTON
    rows: Rows = ((view.button("Take it up again", Action.UNDO),),) if again else ()
    return Message("\n".join([head(view), *done, *end]), rows=rows, silent=True)


def held_screen(view: SessionView) -> Message:
    """Say that the plan is on hold."""
    return Message(
        f"{head(view)}\n\nYour plan is on hold. Only your coach can take it up again.", silent=True
    )
