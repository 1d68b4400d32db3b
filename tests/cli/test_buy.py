"""``fuelthrift buy``: text, JSON, what is refused, exit codes."""

import json

import pytest

SHOP = """\
shop:
  fuels:
    sticks: {price: 3 EUR / 2 kg, storage_limit: 5 kg}
  cookers: {jar_2l: 25 EUR}
  bottled_water: {price: 1.20 EUR / 6 L}
"""


@pytest.fixture(name="shop")
def _shop(file):
    """The small scenario, poor in fuel, with a shop."""
    text = file.read_text("utf-8").replace("stock: 3 kg", "stock: 0.2 kg")
    file.write_text(text.replace("stock: 1 x 465 g", "stock: 0 kg") + SHOP, "utf-8")
    return file


def test_it_says_what_to_buy_and_what_for(run, shop):
    told = run("buy", shop, "--days", 3)
    assert told.exit_code == 0
    assert "To last 3 days on this menu, buy for 3.00 EUR." in told.stdout
    assert "1 x 2 kg of sticks  3.00 EUR  cannot be done" in told.stdout
    assert "- sticks: porridge" in told.stdout
    assert "local fire" in told.stdout
    assert max(len(line) for line in told.stdout.splitlines()) <= 80


def test_nothing_is_bought_where_there_is_enough(run, shop):
    shop.write_text(shop.read_text("utf-8").replace("stock: 0.2 kg", "stock: 9 kg"), "utf-8")
    told = run("buy", shop, "--days", 3)
    assert told.exit_code == 0
    assert "What there is lasts 3 days on this menu: nothing has to be bought." in told.stdout


def test_too_small_a_budget_says_how_much_more(run, shop):
    told = run("buy", shop, "--days", 3, "--budget", "1 EUR")
    assert told.exit_code == 1
    assert "Nothing that lasts 3 days can be bought within 1.00 EUR." in told.stdout
    assert "2.00 EUR more would do: 3.00 EUR in all." in told.stdout
    assert run("buy", shop, "--days", 3, "--budget", "3").exit_code == 0


def test_too_small_a_limit_says_which(run, shop):
    told = run("buy", shop, "--days", 60, "--only-list")
    assert told.exit_code == 1
    assert "With room for" in told.stdout
    assert "of sticks it would be" in told.stdout


def test_as_json(run, shop):
    told = run("buy", shop, "--days", 3, "--json", "-")
    result = json.loads(told.stdout)
    assert told.exit_code == 0
    assert result["status"] == "optimal"
    assert result["cost"] == result["bound"] == 3.0
    assert [(each["name"], each["count"]) for each in result["bought"]] == [("sticks", 1)]
    assert result["bought"][0]["cost_without"] is None
    assert result["bought"][0]["cost_without_known"] is True
    assert {use["name"] for use in result["fuels"]} == {"sticks", "propane"}
    assert result["plan"]["status"] == "within_gap"
    assert [each["code"] for each in result["cautions"]] == ["fuel_storage"]


def test_as_json_where_nothing_will_do(run, shop):
    told = run("buy", shop, "--days", 3, "--budget", 1, "--json", "-")
    result = json.loads(told.stdout)
    assert told.exit_code == 1
    assert result["status"] == "infeasible"
    assert result["plan"] is None
    assert result["changes"][0]["sort"] == "money"
    assert result["changes"][0]["more_money"] == 2.0


def test_in_us_measures(run, shop):
    assert "4.41 lb of sticks" in run("buy", shop, "--days", 3, "--units", "us").stdout


def test_everything_wrong_is_told_at_once(run, shop):
    told = run("buy", shop, "--days", 0, "--budget", "5 USD", "--confidence", 2)
    assert told.exit_code == 2
    assert "--confidence" in told.stderr
    told = run("buy", shop, "--days", 0, "--budget", "5 USD")
    assert told.exit_code == 2
    assert "--days" in told.stderr
    assert "--budget: '5 USD' is no sum of money" in told.stderr


@pytest.mark.parametrize("budget", ["-1", "nan", "inf", "much"])
def test_no_sum_of_money(run, shop, budget):
    told = run("buy", shop, "--days", 1, f"--budget={budget}")
    assert told.exit_code == 2
    assert "no sum of money" in told.stderr


def test_the_scenario_is_never_written_over(run, shop):
    assert run("buy", shop, "--days", 1, "--json", shop).exit_code == 2


def test_no_time_at_all_is_a_limit(run, shop):
    told = run("buy", shop, "--days", 3, "--time-limit", "0.0001")
    assert told.exit_code in (0, 3)
    if told.exit_code == 3:
        assert "allow more time" in told.stderr


def test_without_a_shop_it_says_where_to_write_it(run, file):
    file.write_text(
        file.read_text("utf-8").replace("3 kg", "10 g").replace("1 x 465", "1"), "utf-8"
    )
    told = run("buy", file, "--days", 3)
    assert told.exit_code == 1
    assert "shop:" in told.stdout


def test_plan_says_what_more_of_everything_is_worth(run, file, parsed):
    told = run("plan", file, "--worth", "--json", "-")
    assert told.exit_code == 0
    worth = {each["what"]: each for each in parsed(told.stdout)["worth"]}
    assert "a kitchen 5 K warmer" in worth
    assert all(each["mixed"] is not None for each in worth.values())
    plain = parsed(run("plan", file, "--json", "-").stdout)["worth"]
    assert all(each["mixed"] is None for each in plain)
    assert "price holds" in run("plan", file, "--worth").stdout
