"""What is kept of somebody's care: handed out with her data, and gone with it."""

import io
import json
import zipfile

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from sqlalchemy import func, select

from bot.files.archive import ALL
from bot.messages import Send
from bot.store.tables import clinician_limit, contract, hand_on, picture, referral, reminder
from bot.store.units import Units
from bot.usecases import own_data

TABLES = (clinician_limit, contract, hand_on, referral, reminder)


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "Marit: /refer Ada doctor: tired since May",
            "Marit: /limit Ada: no overhead, doctor",
            "Marit [Let it hold]",
            "Marit: /remind Ada friday: ask about the hip",
            "Marit: /remind friday: order bands",
            "Marit: /contract Ada 12 sessions",
            "Marit: /summary Ada",
            "Orla: /refer Ben doctor: tired since May",
        ),
    )


def counted(play: Talk) -> list[int]:
    with play.units.read(None) as unit:
        return [
            unit.connection.execute(select(func.count()).select_from(each)).scalar_one() for each in TABLES
        ]


def test_it_is_handed_out_but_for_what_is_the_coachs_own(play: Talk) -> None:
    [sent] = play.someone("Ada").does(own_data.data_asked, own_data.DataAsked())
    assert isinstance(sent, Send)
    with play.units.read(None) as unit:
        content = unit.connection.execute(
            select(picture.c.bytes).where(picture.c.id == sent.message.picture_id)
        ).scalar_one()
    data = json.loads(zipfile.ZipFile(io.BytesIO(content)).read(ALL))

    assert [each["why"] for each in data["referral"]] == ["tired since May"]
    assert [each["spec"]["restriction"] for each in data["clinician_limit"]] == ["no arms overhead"]
    assert [each["text"] for each in data["reminder"]] == ["ask about the hip"]
    assert [sorted(each) for each in data["contract"]] == [["client_id"]]
    assert len(data["hand_on"]) == 1


def test_it_is_forgotten_with_her_and_nothing_of_others(play: Talk) -> None:
    assert counted(play) == [1, 1, 1, 2, 2]
    ada = play.someone("Ada")
    ada.does(own_data.forget, own_data.Forget("everything"))

    assert counted(play) == [0, 0, 0, 1, 1]
