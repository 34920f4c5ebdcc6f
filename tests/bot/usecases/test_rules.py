"""`/rules`: nothing holds before it is set, whom it touches is said first, and no rule reaches a safety message."""

from datetime import UTC, datetime, time
from decimal import Decimal

import pytest
from dialogs.talks import Talk
from setting_out import plain_text
from sqlalchemy import select

from bot.messages import Action, Lane, Level, decode
from bot.store.tables import outbox
from bot.store.units import Units
from bot.usecases import rules
from bot.usecases import talk as talking
from core.oversight.rule import Group, Kind
from core.oversight.rule_words import RULES, rules_of
from core.policy import Policy


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def says(play: Talk, text: str, name: str = "Marit") -> str:
    someone = play.someone(name)
    someone.does(rules.rules_asked, rules.RulesAsked(text))
    return someone.sees


def policy(
    play: Talk, client: str | None = None, exercise: str | None = None, coach: str = "Marit"
) -> Policy:
    client_id = None if client is None else play.house.client_of(play.someone(coach), play.someone(client)).id
    found: Policy = play.house.reading(
        play.someone(coach), lambda unit: unit.rules.policy(client_id, exercise)
    )
    return found


def test_a_line_is_read_back_and_holds_only_when_it_is_set(play: Talk) -> None:
    told = says(play, "for Ada: pain drop 30%")

    assert "30 %, now 20 %." in told
    assert "Touches Ada." in told
    assert policy(play, "Ada") == Policy()
    play.take("Marit [Set it]")
    assert policy(play, "Ada").pain_drop == Decimal("0.30")
    assert policy(play) == Policy()
    assert policy(play, coach="Orla") == Policy()


@pytest.mark.parametrize("words", ["set it", "Yes!", "set"])
def test_what_a_tap_does_a_word_does(play: Talk, words: str) -> None:
    says(play, "raise cap upper 4%")
    play.take(f"Marit: {words}")
    assert policy(play).cap_upper == Decimal("0.04")


def test_not_now_leaves_it_and_other_words_are_no_answer(play: Talk) -> None:
    says(play, "raise cap upper 4%")
    play.take("Marit: hm")
    assert "To write to a client" in play.someone("Marit").sees
    says(play, "raise cap upper 4%")
    play.take("Marit: not now")
    assert play.someone("Marit").sees == "Left as it is: raise cap upper, for all, 5 %."
    assert policy(play) == Policy()


def test_undo_puts_back_what_stood_before_a_rule_or_the_default(play: Talk) -> None:
    for step in ("raise cap upper 4%", "raise cap upper 3%"):
        says(play, step)
        play.take("Marit [Set it]")
    play.take("Marit [Undo]")
    assert policy(play).cap_upper == Decimal("0.04")

    says(play, "reset raise cap upper")
    play.take("Marit [Set it]")
    assert policy(play).cap_upper == Decimal("0.05")
    assert says(play, "undo").startswith("Taken back. Raise cap upper, for all: 4 %.")
    assert policy(play).cap_upper == Decimal("0.04")
    assert says(play, "undo") == "There is no change of a rule to take back."


def test_undo_takes_nothing_back_that_was_changed_again_since(play: Talk) -> None:
    says(play, "raise cap upper 4%")
    play.take("Marit [Set it]")
    marit = play.someone("Marit")
    old = marit.data("Undo")
    says(play, "raise cap upper 3%")
    play.take("Marit [Set it]")
    marit.tap_data(old)

    assert policy(play).cap_upper == Decimal("0.03")
    assert marit.sees == "These rules are from before. /rules shows them as they are now."


def test_for_one_exercise_the_cap_of_its_half_of_the_body_is_meant(play: Talk) -> None:
    says(play, "bench press: raise by 1 kg")
    play.take("Marit [Set it]")

    assert str(policy(play, "Ada", "bench-press").cap_upper_mass) == "1 kg"
    assert policy(play, "Ada", "hip-thrust") == policy(play, "Ada") == Policy()
    assert "Ida" not in says(play, "hip thrust: raise by 2 kg")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("for Ida: pain drop 30%", "I do not know “Ida” as one client or one exercise."),
        ("for Ada, Ada: pain drop 30%", "I do not know “Ada” as one client"),
        ("for bench press, hip thrust: raise by 1 kg", "I do not know “hip thrust” as one client"),
        ("for Ada, , bench pres: raise by 1 kg", "Did you mean Bench press"),
        ("pain drop 5%", "Pain drop goes from 10 % to 50 %. Nothing was changed."),
        ("pain drop 90%", "Pain drop goes from 10 % to 50 %. Nothing was changed."),
        ("pain drop off", "I could not read “off” for pain drop. It goes from 10 % to 50 %."),
        ("quiet from 12:00", "Quiet from goes from 18:00 to 23:30."),
        ("quiet from 18:30", "Quiet from 18:30 must be after late until, which is 20:00."),
        ("most sets 10", "Most sets, for all"),
        ("fewest sets 20", "Fewest sets 20 sets must be under most sets, which is 20 sets."),
        ("limit from 60 60", "I could not read “60” for limit from 60. It goes on or off."),
        ("bench press: miss grace 24", "Miss grace is not about the load of an exercise"),
        ("for Ada: block ends 7", "Block ends holds for all alike."),
        ("stop sign off", "No rule changes what a stop sign does"),
        ("for Ada: stop signs off", "No rule changes what a stop sign does"),
        ("alerts at once off", "I know no rule “alerts at once off”."),
    ],
)
def test_what_cannot_be_is_said_and_changes_nothing(play: Talk, text: str, told: str) -> None:
    assert told in says(play, text)
    assert policy(play, "Ada", "bench-press") == Policy()
    assert policy(play, coach="Orla") == Policy()


def test_what_is_only_like_a_name_is_asked(play: Talk) -> None:
    assert says(play, "for Ada: quite from 22:30") == "Which one is “quite from”?"
    play.take("Marit [Quiet from]")
    play.take("Marit [Set it]")
    assert policy(play, "Ada").quiet_from == time(22, 30)
    assert policy(play) == Policy()


def test_a_rule_that_was_picked_and_cannot_be_set_so_says_why(play: Talk) -> None:
    says(play, "quite from 12:00")
    play.take("Marit [Quiet from]")
    assert play.someone("Marit").sees.startswith("Quiet from goes from 18:00 to 23:30.")


def test_every_rule_is_reached_by_buttons_with_its_range_source_and_steps(play: Talk) -> None:
    for group in Group:
        says(play, "")
        play.take(f"Marit [{group.capitalize()}]")
        marit = play.someone("Marit")
        for rule in rules_of(group):
            assert rule.name in marit.sees
            assert rule.does in marit.sees
        for rule in rules_of(group):
            says(play, group)
            play.take(f"Marit [{rule.name.capitalize()}]")
            assert rule.does in marit.sees
            assert "Default " in marit.sees
            assert marit.sees.count("Our ") + marit.sees.count("Common practice") >= 1
            changes = [each for each in marit.buttons if each != "Back"]
            assert changes, rule.field
            assert len(plain_text(marit.last)) < 4096


def test_every_rule_is_set_by_one_typed_line(play: Talk) -> None:
    values = {Kind.SHARE: "10%", Kind.MASS: "2 kg", Kind.SWITCH: "on"}
    for rule in RULES.values():
        text = values.get(rule.kind)
        if text is None:
            text = f"{rule.edges[1]}"[:5] if rule.kind is Kind.HOUR else f"{rule.edges[0]}"
        told = says(play, f"{rule.name} {text}")
        assert told.startswith((f"{rule.name.capitalize()}, for all", f"{rule.name.capitalize()} ")), told


def test_in_four_taps_a_rule_is_changed_and_a_step_back_goes_a_screen_back(play: Talk) -> None:
    says(play, "")
    for step in ("Pain", "Pain drop", "Back", "Pain drop", "25 %", "Set it"):
        play.take(f"Marit [{step}]")
    assert policy(play).pain_drop == Decimal("0.25")
    says(play, "pain drop")
    marit = play.someone("Marit")
    assert "25 % by you, 6 April" in marit.sees
    play.take("Marit [Back to 20 %]")
    play.take("Marit [Set it]")
    assert policy(play) == Policy()
    says(play, "pain drop")
    assert "25 % by you, 6 April, until 6 April" in marit.sees
    play.take("Marit [Back]")
    play.take("Marit [Back]")
    assert marit.sees.startswith("Your rules")


@pytest.mark.parametrize(
    ("screen", "label", "action", "argument"),
    [
        ("", "Pain", Action.PICK, 99),
        ("", "Pain", Action.CONFIRM, 0),
        ("pain", "Pain drop", Action.CHOOSE, 9),
        ("pain drop", "25 %", Action.MOVE, 9),
        ("quite from 22", "Quiet from", Action.CHOOSE, 9),
    ],
)
def test_a_button_that_was_not_offered_changes_nothing(
    play: Talk, screen: str, label: str, action: Action, argument: int
) -> None:
    says(play, screen)
    marit = play.someone("Marit")
    marit.does(talking.tapped, talking.Tapped(decode(marit.forged(label, action=action, argument=argument))))
    assert policy(play) == Policy()


def test_an_old_button_shows_how_things_stand(play: Talk) -> None:
    says(play, "")
    marit = play.someone("Marit")
    old = marit.data("Pain")
    play.take("Marit [Hours]")
    marit.tap_data(old)
    assert marit.sees.startswith("Hours, for all")


def test_what_came_in_between_is_seen_when_it_is_set(play: Talk) -> None:
    marit = play.someone("Marit")
    says(play, "quiet from")
    play.take("Marit [20:30]")
    first = marit.data("Set it")
    says(play, "late until")
    play.take("Marit [20:30]")
    play.take("Marit [Set it]")
    marit.tap_data(first)
    assert marit.sees.startswith("Quiet from 20:30 must be after late until, which is 20:30.")
    assert (policy(play).quiet_from, policy(play).late_latest) == (time(21), time(20, 30))


def test_a_rule_that_another_leans_on_is_not_put_back(play: Talk) -> None:
    for step in ("for Ada: quiet from 22:00", "for Ada: week asked at 21:30"):
        says(play, step)
        play.take("Marit [Set it]")
    assert policy(play, "Ada").week_asked_at == time(21, 30)
    says(play, "reset for Ada: quiet from")
    told = play.someone("Marit").sees
    assert told.startswith("Quiet from 21:00 must be after week asked at, which is 21:30.")


def test_a_client_of_her_own_rule_is_named_as_spared(play: Talk) -> None:
    says(play, "for Ada: pain drop 30%")
    play.take("Marit [Set it]")
    told = says(play, "pain drop 25%")
    assert "It touches nobody now." in told
    assert "Not touched, since a rule of their own stands: Ada." in told


def test_a_client_gets_the_help_of_clients_and_sets_nothing(play: Talk) -> None:
    told = says(play, "pain drop 30%", "Ada")
    assert "Only a coach can do that here. Nothing was changed." in told
    assert policy(play, "Ada") == Policy()
    says(play, "pain drop 30%")
    marit, ida = play.someone("Marit"), play.someone("Orla")
    ida.tap_data(marit.data("Set it"))
    assert policy(play) == Policy()
    assert policy(play, coach="Orla") == Policy()


def test_the_next_load_that_would_be_another_is_shown_before(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    play.take("Ada: pain left shoulder 5")
    told = says(play, "for Ada: pain drop 40%")

    assert (
        "Next loads that change, of the next seven days:\nAda, Bench press: 4 × 6 at 35 kg, now 4 × 6 at 47.5 kg\n"
        in told
    )
    assert "In the next seven days each exercise's next load stays as it is." in says(
        play, "for Ada: illness drop 10%"
    )


def test_a_changed_hour_moves_what_waits_for_it(play: Talk) -> None:
    def due(unit) -> set[time]:
        found = unit.due_questions.of_client(
            unit.accounts.find(1).client_id, "checkin", play.house.now.date()
        )
        return {each.due_at.time() for each in found if each.sent_at is None}

    before = play.house.reading(play.someone("Marit"), due)
    says(play, "week asked at 17:00")
    play.take("Marit [Set it]")
    after = play.house.reading(play.someone("Marit"), due)
    assert before
    assert after == {each.replace(hour=each.hour - 1) for each in before}


@pytest.mark.parametrize("edge", [0, 1])
@pytest.mark.parametrize(
    ("words", "told"),
    [("my chest hurts and I cannot breathe", "emergency"), ("pain left knee 9", "9 of 10")],
)
def test_whatever_is_set_what_cannot_wait_is_told_at_once_at_any_hour(
    play: Talk, edge: int, words: str, told: str
) -> None:
    with play.units.open(play.someone("Marit").coach_id) as unit:
        for rule in RULES.values():
            value = bool(edge) if rule.kind is Kind.SWITCH else rule.edges[edge]
            unit.rules.set(rule.field, value, 100, play.house.now)
    play.house.now = datetime(2026, 4, 7, 22, 45, tzinfo=UTC)
    play.house.tells.clear()
    play.someone("Ada").type(words)

    which = outbox.c.lane == Lane.SAFETY, outbox.c.chat_id == 100
    with play.units.read(None) as unit:
        rows = unit.connection.execute(select(outbox.c.due_at, outbox.c.body).where(*which)).all()
    assert [each.level for each in play.house.tells] == [Level.NOW]
    assert [each.due_at <= play.house.now for each in rows] == [True]
    assert told in rows[0].body["html"] + play.someone("Ada").sees


@pytest.mark.parametrize("edge", [0, 1])
def test_whatever_is_set_a_stop_sign_puts_the_plan_on_hold(play: Talk, edge: int) -> None:
    with play.units.open(play.someone("Marit").coach_id) as unit:
        for rule in RULES.values():
            value = bool(edge) if rule.kind is Kind.SWITCH else rule.edges[edge]
            unit.rules.set(rule.field, value, 100, play.house.now)
    play.someone("Ada").type("my chest hurts and I cannot breathe")

    assert play.house.client_of(play.someone("Marit"), play.someone("Ada")).frozen_at == play.house.now


def test_the_rules_of_one_client_and_help_for_a_client_who_taps(play: Talk) -> None:
    says(play, "for Ada: pain drop 30%")
    play.take("Marit [Set it]")
    assert "pain drop, for Ada: 30 %" in says(play, "for Ada")
    assert "pain drop, for Ada: 30 %" in says(play, "for Ada:")
    assert "Nothing of their own" not in says(play, "for Ada")
    assert "I do not know “Zoe”" in says(play, "for Zoe")


def test_an_exercise_that_nobody_has_touches_nobody(play: Talk) -> None:
    assert "It touches nobody now." in says(play, "leg press: raise by 2 kg")


def test_a_client_without_a_block_has_no_next_load(play: Talk) -> None:
    marit = play.someone("Marit")
    play.house.invited(marit, "Bo", 2)
    assert "Touches Ada." in says(play, "pain drop 25%")
    assert "Touches Ada." in says(play, "hip thrust: pain drop 25%")


def test_a_plan_on_hold_has_no_next_load(play: Talk) -> None:
    play.someone("Ada").type("my chest hurts and I cannot breathe")
    assert "In the next seven days each exercise's next load stays as it is." in says(
        play, "for Ada: pain drop 25%"
    )
