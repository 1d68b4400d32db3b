"""A file to a Scenario: everything it says arrives, in SI, and what it does not say is usual."""

from datetime import date

import pytest

from optimizer.model.household import Place, Weather, Window
from optimizer.scenario.reading import parse, read
from optimizer.shelf import load


def test_the_frame(good) -> None:
    scenario = parse(good)
    assert (scenario.title, scenario.adults, scenario.children, scenario.people) == (
        "Two days", 2, 3, 5,
    )  # fmt: skip
    assert scenario.place == Place(altitude_m=600, kitchen_c=12, outdoors_c=-3, water_c=8)
    assert (scenario.currency, scenario.start, scenario.cooks) == ("EUR", None, 1)
    assert (scenario.goals, scenario.confidence) == (("money",), 0.9)
    assert scenario.rules is load().rules


def test_the_windows_lie_on_the_days(good) -> None:
    assert parse(good).windows == (
        Window(360, 540), Window(960, 1140), Window(1800, 1980), Window(2400, 2580),
    )  # fmt: skip


def test_hours_of_a_named_day_replace_the_general_ones(changed) -> None:
    text = changed(
        ("days: 2", "days: 4"),
        (
            '["06:00-09:00", "16:00-19:00"]',
            '{day 2: ["10:00-11:00"], every day: ["07:00-08:00"], days 3-4: []}',
        ),
    )
    assert parse(text).windows == (Window(420, 480), Window(1440 + 600, 1440 + 660))


def test_hours_are_put_in_order_and_may_touch(changed) -> None:
    text = changed(('["06:00-09:00", "16:00-19:00"]', '["09:00-24:00", "00:00-09:00"]'))
    assert parse(text).windows[:2] == (Window(0, 540), Window(540, 1440))


def test_the_items_come_in_the_order_of_serving(good) -> None:
    scenario = parse(good)
    assert [(i.number, i.day, i.meal, i.dish.name, i.serve_min) for i in scenario.items] == [
        (0, 1, "breakfast", "porridge", 450),
        (1, 1, "breakfast", "tea", 450),
        (2, 2, "breakfast", "porridge", 1890),
        (3, 2, "breakfast", "tea", 1890),
        (4, 2, "supper", "lentil_stew", 2550),
    ]


def test_a_later_meal_written_first_is_served_later(changed) -> None:
    scenario = parse(changed(('at: "07:30"', 'at: "20:00"')))
    assert [i.meal for i in scenario.items if i.day == 2] == ["supper", "breakfast", "breakfast"]


@pytest.mark.parametrize(
    ("portions", "adults", "children"),
    [
        ("5", 2, 3),
        ("2.5", 1, 1.5),
        ("{adults: 2}", 2, 0),
        ("{children: 1.5}", 0, 1.5),
        ("{people: 10}", 4, 6),
    ],
)
def test_portions(changed, portions, adults, children) -> None:
    scenario = parse(changed(("[porridge, tea]", f"[{{dish: tea, portions: {portions}}}]")))
    item = scenario.items[0]
    assert (item.adults, item.children) == pytest.approx((adults, children))


def test_without_portions_everybody_eats(good) -> None:
    assert {(i.adults, i.children) for i in parse(good).items} == {(2.0, 3.0)}


def test_people_as_a_number_are_grown_up(changed) -> None:
    scenario = parse(changed(("{adults: 2, children: 3}", "4")))
    assert (scenario.adults, scenario.children) == (4, 0)


@pytest.mark.parametrize(
    ("on", "days"),
    [("every day", {1, 2, 3}), ("2", {2}), ("day 2", {2}), ("days 2-3", {2, 3}),
     ("[1, 3]", {1, 3}), ("[day 1, days 2-3]", {1, 2, 3})],
)  # fmt: skip
def test_on(changed, on, days) -> None:
    scenario = parse(changed(("days: 2", "days: 3"), ("on: [2]", f"on: {on}")))
    assert {i.day for i in scenario.items if i.meal == "supper"} == days


class TestWeather:
    usual = Weather(outdoors_c=-3, wind_m_s=0, rain=False, wet_sticks=False)

    def test_is_the_usual_one_where_nothing_is_said(self, good) -> None:
        assert parse(good).weather == (self.usual, self.usual)

    def test_as_a_list(self, good) -> None:
        scenario = parse(good + "weather: [{outdoors: 41 degF, wind: 10.8 km/h, rain: true}]\n")
        first, second = scenario.weather
        assert (first.outdoors_c, first.wind_m_s) == pytest.approx((5, 3))
        assert (first.rain, first.wet_sticks) == (True, False)
        assert second == self.usual

    def test_by_day(self, good) -> None:
        scenario = parse(good + "weather: {every day: {wind: 2 m/s}, 2: {wet_sticks: true}}\n")
        assert scenario.weather == (
            Weather(outdoors_c=-3, wind_m_s=2, rain=False, wet_sticks=False),
            Weather(outdoors_c=-3, wind_m_s=0, rain=False, wet_sticks=True),
        )


class TestStores:
    @staticmethod
    def store(text, name):
        return next(store for store in parse(text).stores if store.fuel.name == name)

    def test_packages(self, good) -> None:
        store = self.store(good, "propane")
        assert store.stock_kg == pytest.approx(0.93)
        assert store.package_kg == pytest.approx(0.465)
        assert store.price_kg == pytest.approx(9.50 / 0.465)
        assert (store.stock_j, store.price_j, store.reserve) == (None, None, 0)

    def test_a_package_is_that_of_the_shelf_unless_packages_are_counted(self, changed) -> None:
        text = changed(("2 x 465 g", "930 g"))
        assert self.store(text, "propane").package_kg == load().fuels["propane"].package_kg
        text = changed(("stock: 2 x 465 g", "stock: 930 g, package: 11 kg"))
        assert self.store(text, "propane").package_kg == 11

    def test_electricity_is_counted_in_joules(self, changed) -> None:
        text = changed(
            ("  propane:", "  electricity: {stock: 1.2 kWh, price: 0.30 EUR / kWh}\n  propane:")
        )
        store = self.store(text, "electricity")
        # 1 kWh is 3.6e6 J (NIST SP 811, Appendix B.8)
        assert store.stock_j == pytest.approx(1.2 * 3.6e6)
        assert store.price_j == pytest.approx(0.30 / 3.6e6)
        assert (store.stock_kg, store.price_kg, store.package_kg) == (None, None, None)

    def test_electricity_has_no_mass(self, changed, told) -> None:
        (problem,) = told(changed(("  propane:", "  electricity: {stock: 1 kg}\n  propane:")))
        assert (problem.key, problem.code) == ("fuels.electricity.stock", "unit_wrong")

    def test_the_sun_needs_no_stock(self, changed) -> None:
        store = self.store(changed(("  propane:", "  sun:\n  propane:")), "sun")
        assert (store.stock_kg, store.stock_j, store.price_j) == (None, None, None)

    def test_litres_are_weighed(self, changed) -> None:
        text = changed(("  propane:", "  kerosene: {stock: 5 L, price: 2 EUR / L}\n  propane:"))
        density = load().fuels["kerosene"].density_kg_m3
        store = self.store(text, "kerosene")
        assert store.stock_kg == pytest.approx(5e-3 * density)
        assert store.price_kg == pytest.approx(2 / (1e-3 * density))

    def test_without_limit(self, changed) -> None:
        assert self.store(changed(("12 kg", "unlimited")), "sticks").stock_kg is None

    def test_nothing_left_is_a_stock(self, changed) -> None:
        assert self.store(changed(("12 kg", "0 kg")), "sticks").stock_kg == 0

    def test_a_price_may_be_left_out(self, changed) -> None:
        text = changed(("    price: 0.25 EUR / kg\n", ""))
        assert self.store(text, "sticks").price_kg is None

    def test_the_reserve_of_a_fuel_stands_before_the_general_one(self, changed) -> None:
        text = changed(
            ("stock: 12 kg", "stock: 12 kg\n    reserve: 0"), ("goal: money", "reserve: 10 %")
        )
        assert self.store(text, "sticks").reserve == 0
        assert self.store(text, "propane").reserve == pytest.approx(0.1)

    def test_another_currency(self, good) -> None:
        text = good.replace("EUR", "NZD") + "currency: NZD\n"
        assert parse(text).currency == "NZD"
        assert self.store(text, "sticks").price_kg == pytest.approx(0.25)


class TestStoves:
    def test_a_flame_stands_outdoors_where_nothing_is_said(self, good) -> None:
        assert [(own.count, own.where) for own in parse(good).stoves] == [(1, "outdoors")] * 2

    def test_a_vented_hob(self, changed) -> None:
        text = changed(("gas_burner: 1", "gas_burner: {where: vented hob}"))
        assert parse(text).stoves[1].where == "vented hob"

    def test_a_plate_stands_indoors(self, changed) -> None:
        text = changed(
            ("gas_burner: 1", "electric_plate: 1"),
            ("  propane:", "  electricity: {stock: 1 kWh}\n  propane:"),
        )
        assert parse(text).stoves[1].where == "indoors"

    def test_none_of_a_kind_is_left_out(self, changed) -> None:
        scenario = parse(changed(("gas_burner: 1", "gas_burner: 0")))
        assert [own.stove.name for own in scenario.stoves] == ["stick_stove"]

    def test_another_fuel(self, changed) -> None:
        text = changed(("gas_burner: 1", "gas_burner: {fuel: butane}"), ("  propane:", "  butane:"))
        assert parse(text).stoves[1].stove.fuel == "butane"


def test_the_start_is_a_date(good) -> None:
    for written in ("2027-01-15", '"2027-01-15"'):
        assert parse(good + f"start: {written}\n").start == date(2027, 1, 15)


def test_goals_in_order(changed) -> None:
    text = changed(("goal: money", "goal: [propane, tending]"))
    assert parse(text).goals == ("propane", "tending")


def test_neighbours_may_be_named(good) -> None:
    assert parse(good + "households: [one, two]\n").people == 5


def test_an_alias_is_what_it_stands_for(changed) -> None:
    text = changed(
        ("stock: 2 x 465 g, price: 9.50 EUR / 465 g", "stock: 2 x 465 g, reserve: &some 20 %"),
        ("goal: money", "reserve: *some"),
    )
    assert {store.reserve for store in parse(text).stores} == {0.2}


def test_read_takes_a_path_or_a_name(tmp_path, good) -> None:
    path = tmp_path / "two.yaml"
    path.write_text(good, encoding="utf-8")
    assert read(path) == read(str(path)) == parse(good)
