"""`tidemark weights`: the contract's example, kits, and every option that can't be."""

from dataclasses import replace

import pytest

WAVE = "1x4@72, 1x4@77, 3x4@82"


def test_the_contracts_example(tidemark):
    answer = tidemark("weights", "--reference", "3RM=92.5kg", "--wave", WAVE, "--json").json
    assert answer["reference"] == {"reps": 3, "load": 92.5, "unit": "kg", "source": "given"}
    first = answer["sets"][0]
    assert (first["set"], first["reps"], first["percent"], first["target"], first["load"]) == (1, 4, 72.0, 66.6, 67.5)
    assert first["per_side"] == [20.0, 2.5, 1.25]
    assert first["actual_percent"] == pytest.approx(72.97, abs=0.005)
    assert first["unit"] == "kg"
    assert [each["load"] for each in answer["sets"]] == [67.5, 70, 75, 75, 75]
    assert all("chance" not in each for each in answer["sets"])  # there is no member to have one


def test_a_reference_in_pounds_is_loaded_on_the_pound_bar(tidemark):
    # By hand: 70 % of 185 lb is 129.5; 45 + 2 x (35 + 5 + 2.5) = 130.
    made = tidemark("weights", "--reference", "3RM=185lb", "--wave", "1x3@70", "--json").json["sets"][0]
    assert (made["load"], made["unit"], made["per_side"]) == (130, "lb", [35, 5, 2.5])


def test_only_the_discs_at_hand(tidemark):
    made = tidemark(
        "weights", "--reference", "1RM=100kg", "--wave", "1x1@100", "--bar", "20kg",
        "--pairs", "25:1 20:1 15:1 10:1 5:1 2.5:1 1.25:1", "--json",
    ).json["sets"][0]  # fmt: skip
    assert (made["load"], made["per_side"]) == (100, [25, 15])  # one pair of each: 25 twice is not at hand


def test_down_goes_down_and_half_way_goes_down(tidemark):
    def load(*more):
        return tidemark("weights", "--reference", "1RM=100kg", "--json", *more).json["sets"][0]["load"]

    assert load("--wave", "1x1@72.4") == 72.5
    assert load("--wave", "1x1@72.4", "--rounding", "down") == 70
    assert load("--wave", "1x1@71.25") == 70


def test_below_the_empty_bar_it_is_the_empty_bar_and_says_so(tidemark):
    made = tidemark("weights", "--reference", "1RM=40kg", "--wave", "1x5@30", "--rounding", "down", "--json").json[
        "sets"
    ][0]
    assert (made["load"], made["per_side"]) == (20, [])
    assert "below the empty bar" in made["note"]


def test_the_table_has_units_and_discs(tidemark):
    said = tidemark("weights", "--reference", "3RM=92.5kg", "--wave", WAVE).out
    assert "3RM 92.5 kg" in said
    assert "67.5 kg" in said
    assert "20 + 2.5 + 1.25" in said


@pytest.mark.sqlite("are about what is typed, before any log is read")
@pytest.mark.parametrize(
    ("changed", "place"),
    [
        ({"--reference": "3RM=92.5"}, "--reference"),
        ({"--reference": "3RM=92.5stone"}, "--reference"),
        ({"--reference": "0RM=92.5kg"}, "reference"),
        ({"--reference": "3RM=nankg"}, "--reference"),
        ({"--reference": "3RM=infkg"}, "--reference"),
        ({"--reference": "3RM=-5kg"}, "reference"),
        ({"--reference": "3RM=1001kg"}, "reference"),
        ({"--wave": ""}, "--wave"),
        ({"--wave": "4@72"}, "--wave, column 1"),
        ({"--wave": "1x4@72, 1x4@nan"}, "--wave, column 9"),
        ({"--wave": "1x4@-72"}, "--wave, column 1"),
        ({"--wave": "1x4000@72"}, "--wave, column 1"),
        ({"--wave": "100x4@72, 100x4@72, 100x4@72"}, "--wave"),
        ({"--bar": "twenty"}, "--bar"),
        ({"--bar": "0kg"}, "bar"),
        ({"--pairs": "25:1 x"}, "--pairs"),
        ({"--pairs": "25:-1"}, "--pairs"),
        ({"--pairs": "2000:1"}, "discs"),
        ({"--rounding": "up"}, "--rounding"),
        ({"--place": "Nowhere"}, "--place"),
        ({"--lift": "squat"}, "--member"),
        ({"--member": "Nobody"}, "--lift"),
    ],
)
def test_a_value_that_can_not_be_is_refused_with_its_option(refused, changed, place):
    asked = {"--reference": "3RM=92.5kg", "--wave": WAVE} | changed
    assert place in refused("weights", *(word for pair in asked.items() for word in pair))


def test_without_a_reference_it_is_bad_usage(refused):
    assert "--reference" in refused("weights", "--wave", WAVE)


def test_the_kit_of_a_place_in_the_log(tidemark, refused, log):
    from tracker.desk.people import places

    garage = places.add_place(log, "Garage", "lb")
    empty = replace(places.add_place(log, "Kitchen", "kg"), items=())
    places.change_place(log, empty)
    asked = ("weights", "--reference", "3RM=185lb", "--wave", "1x3@70", "--database", log.name, "--json")
    made = tidemark(*asked, "--place", " garage ").json["sets"][0]
    assert (made["load"], made["unit"], made["per_side"]) == (130, "lb", [35, 5, 2.5])
    assert garage.name in refused(*asked, "--place", "Attic")
    assert "no bar" in refused(*asked, "--place", "Kitchen")
    assert "twice" in refused(*asked, "--place", "Garage", "--bar", "20kg")
