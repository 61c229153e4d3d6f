"""The settings, and the one line that says what is wrong with them."""

from __future__ import annotations

from datetime import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.log_lines import LogForm
from bot.rules.colour_names import COLOUR_NAMES
from bot.settings import CategorySettings, JobSettings, Settings, SettingsError, load_settings, sample_settings
from bot.settings_files import configuration_folder, data_folder, find_settings_file
from bot.settings_run import Address, RunSettings, WebhookSettings
from bot.settings_table import Table
from storage.records import ClockStyle, DateOrder, PayPeriod, Weekday

HOME = {"HOME": "/home/ada"}


def settings_of(tmp_path: Path, text: str, **environment: str) -> Settings:
    """The settings of a file that holds ``text``."""
    file = tmp_path / "settings.toml"
    file.write_text(text, encoding="utf-8")
    return load_settings(file, {**HOME, **environment})


def fault_of(tmp_path: Path, text: str) -> str:
    """What is said of a file that holds ``text``, without the file's name, which it must start with."""
    with pytest.raises(SettingsError) as caught:
        settings_of(tmp_path, text)
    said = str(caught.value)
    assert said.startswith(f"{tmp_path / 'settings.toml'}: ")
    assert "\n" not in said
    return said.removeprefix(f"{tmp_path / 'settings.toml'}: ")


def test_the_sample_settings_hold_when_there_is_no_file() -> None:
    settings = load_settings(None, HOME)

    assert [category.name for category in settings.categories] == ["workshop", "museum", "learning", "family", "home"]
    assert settings.categories[1] == CategorySettings("museum", "work", ("desk", "front desk"), "goldenrod")
    assert settings.sections == ("personal", "work")
    assert [job.category for job in settings.jobs] == ["workshop", "museum"]
    assert (settings.person.zone, settings.person.place, settings.person.latitude, settings.person.longitude) == (
        "Europe/Brussels",
        "Ghent",
        51.05,
        3.72,
    )
    assert (settings.person.waking_start, settings.person.waking_end, settings.person.free_share) == (time(6), time(21), 20)
    assert (settings.person.week_starts, settings.person.dates) == (Weekday.MONDAY, DateOrder.DAY_MONTH)
    assert settings.person.clock is ClockStyle.TWENTY_FOUR
    assert (settings.messages.morning, settings.messages.evening, settings.messages.recap) == (time(6), time(20), time(18))
    assert settings.telegram.token is None
    assert settings.telegram.allowed == ()
    assert settings.database_url == "sqlite:////home/ada/.local/share/weekwright/weekwright.sqlite"


def test_the_sample_settings_alone_keep_nothing_on_disk() -> None:
    assert sample_settings().database_url == "sqlite://"


def test_a_file_says_what_differs_and_the_sample_settings_hold_for_the_rest(tmp_path: Path) -> None:
    settings = settings_of(tmp_path, '[person]\nwaking = "7:30–23:00"\nweek_starts = "Sunday"\n[telegram]\nallowed = [4711]\n')

    assert (settings.person.waking_start, settings.person.waking_end) == (time(7, 30), time(23))
    assert settings.person.week_starts is Weekday.SUNDAY
    assert settings.person.place == "Ghent"
    assert settings.telegram.allowed == (4711,)
    assert settings.telegram.url == "https://api.telegram.org"
    assert len(settings.categories) == 5


def test_whoever_sets_another_zone_does_not_get_the_weather_of_the_sample(tmp_path: Path) -> None:
    person = settings_of(tmp_path, '[person]\nzone = "Pacific/Chatham"\n').person

    assert (person.zone, person.place, person.latitude, person.longitude) == ("Pacific/Chatham", None, None, None)


def test_whoever_sets_categories_does_not_get_the_jobs_of_the_sample(tmp_path: Path) -> None:
    settings = settings_of(tmp_path, '[[categories]]\nname = "Bakery"\nsection = "work"\n')

    assert settings.categories == (CategorySettings("Bakery", "work", (), "grey"),)
    assert settings.jobs == ()


def test_a_job_belongs_to_one_of_the_categories_whatever_its_case(tmp_path: Path) -> None:
    text = '[[categories]]\nname = "Bakery"\nsection = "Work"\n[[jobs]]\ncategory = "bakery"\nemployer = "Crumb"\npay_period = "monthly"\n'

    assert settings_of(tmp_path, text).jobs == (JobSettings("Bakery", "Crumb", PayPeriod.MONTHLY),)


def test_every_variable_overrides_the_file(tmp_path: Path) -> None:
    text = (
        '[telegram]\ntoken = "1:file"\nallowed = [1]\nurl = "http://file"\n'
        '[outside]\nforecast_url = "http://file"\ngeocoding_url = "http://file"\n[database]\nurl = "sqlite:///file"\n'
    )

    settings = settings_of(
        tmp_path,
        text,
        WEEKWRIGHT_TOKEN="2:environment",
        WEEKWRIGHT_ALLOWED="7, 8,",
        WEEKWRIGHT_TELEGRAM_URL="http://127.0.0.1:8081/",
        WEEKWRIGHT_FORECAST_URL="http://127.0.0.1:8082",
        WEEKWRIGHT_GEOCODING_URL="http://127.0.0.1:8083",
        WEEKWRIGHT_DATABASE="sqlite:////srv/week.sqlite",
    )

    assert (settings.telegram.token, settings.telegram.allowed) == ("2:environment", (7, 8))
    assert settings.telegram.url == "http://127.0.0.1:8081"
    assert (settings.outside.forecast_url, settings.outside.geocoding_url) == ("http://127.0.0.1:8082", "http://127.0.0.1:8083")
    assert settings.database_url == "sqlite:////srv/week.sqlite"
    assert settings_of(tmp_path, text, WEEKWRIGHT_TOKEN="").telegram.token == "1:file"
    assert settings_of(tmp_path, text).database_url == "sqlite:///file"


def test_neither_the_token_nor_the_database_password_is_ever_shown(tmp_path: Path) -> None:
    secrets = '[telegram]\ntoken = "12:hush"\n[database]\nurl = "postgresql://ada:hush@db/week"\n'

    assert "hush" not in repr(settings_of(tmp_path, secrets))
    assert "hush" not in fault_of(tmp_path, '[telegram]\ntoken = "12 hush"\n')
    assert "hush" not in fault_of(tmp_path, '[telegram]\ntoken = "12:hush→"\n')
    assert "hush" not in fault_of(tmp_path, '[database]\nurl = "ada:hush@db"\n')


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[person]\nzoen = 1\n", "person.zoen: expected a known key, nearest is zone"),
        ("[persno]\n", "persno: expected a known key, nearest is person"),
        ("person = 3\n", "person: expected a table, not 3"),
        ('[person]\nzone = "Brussels"\n', "person.zone: expected a time zone of the IANA such as Europe/Brussels, not 'Brussels'"),
        ('[person]\nzone = "Europe"\n', "person.zone: expected a time zone of the IANA such as Europe/Brussels, not 'Europe'"),
        ('[person]\nzone = "../etc"\n', "person.zone: expected a time zone of the IANA such as Europe/Brussels, not '../etc'"),
        ("[person]\nzone = 3\n", "person.zone: expected one line of text, not 3"),
        ("[person]\nlatitude = 91\nlongitude = 3\n", "person.latitude: expected degrees from -90 to 90, not 91"),
        ("[person]\nlatitude = nan\nlongitude = 3\n", "person.latitude: expected degrees from -90 to 90, not nan"),
        ("[person]\nlatitude = 51\n", "person.longitude: expected degrees, because latitude and longitude go together"),
        ('[person]\nwaking = "06:00"\n', """person.waking: expected two times such as "06:00-21:00", not '06:00'"""),
        ('[person]\nwaking = "06:00-06:00"\n', """person.waking: expected two times such as "06:00-21:00", not '06:00-06:00'"""),
        ('[person]\nweek_starts = "mo"\n', "person.week_starts: expected one of monday, tuesday, wednesday, thursday, friday, saturday, "),
        ("[person]\nfree_share = 101\n", "person.free_share: expected a whole number from 0 to 100, not 101"),
        ("[person]\nfree_share = true\n", "person.free_share: expected a whole number from 0 to 100, not True"),
        ('[messages]\nmorning = "25:00"\n', """messages.morning: expected a time such as "06:00", not '25:00'"""),
        ("[messages]\nevening = 20:00:00\n", """messages.evening: expected a time such as "06:00", not datetime.time(20, 0)"""),
        ('sections = "work"\n', "sections: expected a list of texts, not 'work'"),
        ('sections = ["work", "Work"]\n', "sections: expected a name that nothing else has, not 'Work'"),
        ('categories = ["work"]\n', "categories: expected tables, each under [[categories]], not ['work']"),
        ('[[categories]]\nname = "a"\nsection = "play"\n', "categories[1].section: expected one of personal, work, not 'play'"),
        ('[[categories]]\nsection = "work"\n', "categories[1].name: expected one line of text"),
        (
            '[[categories]]\nname = "a"\nsection = "work"\ncolour = "tael"\n',
            "categories[1].colour: expected a colour name of CSS such as teal, not 'tael'",
        ),
        (
            '[[categories]]\nname = "a"\nsection = "work"\n[[categories]]\nname = "b"\naliases = ["A"]\nsection = "work"\n',
            "categories[2].name: expected a name that nothing else has, not 'A'",
        ),
        (
            '[[jobs]]\ncategory = "bakery"\nemployer = "Crumb"\n',
            "jobs[1].category: expected one of workshop, museum, learning, family, home, not 'bakery'",
        ),
        (
            '[[jobs]]\ncategory = "home"\nemployer = "A"\n[[jobs]]\ncategory = "home"\nemployer = "B"\n',
            "jobs[2].category: expected a name that nothing else has, not 'home'",
        ),
        (
            '[[jobs]]\ncategory = "home"\nemployer = "A"\npay_period = "daily"\n',
            "jobs[1].pay_period: expected one of weekly, every two weeks, twice a month, four-weekly, monthly, not 'daily'",
        ),
        ("[telegram]\nallowed = [0]\n", "telegram.allowed: expected a whole number from 1 to 9223372036854775807, not 0"),
        ("[telegram]\nallowed = 7\n", "telegram.allowed: expected a list of whole numbers, not 7"),
        ('[telegram]\nurl = "api"\n', "telegram.url: expected an address such as http://127.0.0.1:8081, not 'api'"),
        ('[database]\nurl = "week"\n', "database.url: expected an SQLAlchemy URL such as sqlite:////home/me/week.sqlite"),
        ("a = \n", "expected TOML: Invalid value (at line 1, column 5)"),
        ('[person]\nplace = "Gh\\nent"\n', "person.place: expected one line of text, not 'Gh\\nent'"),
        (f'[messages]\nmorning = "{"a" * 99}"\n', f"""messages.morning: expected a time such as "06:00", not '{"a" * 39}…"""),
    ],
)
def test_a_wrong_file_is_refused_in_one_line_that_names_the_key_and_what_was_expected(tmp_path: Path, text: str, said: str) -> None:
    assert fault_of(tmp_path, text).startswith(said)


def test_a_file_that_is_not_text_or_not_there_is_refused(tmp_path: Path) -> None:
    (tmp_path / "latin.toml").write_bytes(b'[person]\nplace = "Li\xe8ge"\n')

    with pytest.raises(SettingsError, match=r"latin\.toml: expected text in UTF-8, and byte 20 is not"):
        load_settings(tmp_path / "latin.toml", HOME)
    with pytest.raises(SettingsError, match=r"nowhere\.toml: expected a file that can be read \(No such file or directory\)"):
        load_settings(tmp_path / "nowhere.toml", HOME)


def test_a_file_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    assert settings_of(tmp_path, '\ufeff[person]\nplace = "Liège"\n').person.place == "Liège"


@pytest.mark.parametrize(
    ("variable", "value", "said"),
    [
        (
            "WEEKWRIGHT_ALLOWED",
            "ada",
            "the environment: WEEKWRIGHT_ALLOWED: expected a whole number from 1 to 9223372036854775807, not 'ada'",
        ),
        ("WEEKWRIGHT_TELEGRAM_URL", "ada", "the environment: WEEKWRIGHT_TELEGRAM_URL: expected an address such as http://127.0.0.1:8081, "),
        *(
            ("WEEKWRIGHT_TELEGRAM_URL", wrong, "the environment: WEEKWRIGHT_TELEGRAM_URL: expected an address such as")
            for wrong in ("http://127.0.0.1:abc", "http://127.0.0.1:0", "http://127.0.0.1:70000", "http://[::1", "http://:80")
        ),
        ("WEEKWRIGHT_FORECAST_URL", "https://[::1", "the environment: WEEKWRIGHT_FORECAST_URL: expected an address such as"),
        ("WEEKWRIGHT_DATABASE", "ada", "the environment: WEEKWRIGHT_DATABASE: expected an SQLAlchemy URL"),
        ("WEEKWRIGHT_TOKEN", "a b", "the environment: WEEKWRIGHT_TOKEN: expected one word without blanks"),
        ("WEEKWRIGHT_TOKEN", "12:hüsh", "the environment: WEEKWRIGHT_TOKEN: expected one word without blanks"),
    ],
)
def test_a_wrong_variable_is_refused_by_its_name(variable: str, value: str, said: str) -> None:
    with pytest.raises(SettingsError) as caught:
        load_settings(None, {**HOME, variable: value})

    assert str(caught.value).startswith(said)


def test_the_settings_file_is_the_named_one_else_the_one_here_else_the_users(tmp_path: Path) -> None:
    here, configuration, named = tmp_path / "here", tmp_path / "configuration", tmp_path / "mine.toml"
    here.mkdir()
    configuration.mkdir()

    assert find_settings_file({}, here, configuration) is None
    (configuration / "settings.toml").touch()
    assert find_settings_file({}, here, configuration) == configuration / "settings.toml"
    (here / "settings.toml").touch()
    assert find_settings_file({}, here, configuration) == here / "settings.toml"
    with pytest.raises(SettingsError, match="WEEKWRIGHT_SETTINGS: expected a settings file, and there is none at"):
        find_settings_file({"WEEKWRIGHT_SETTINGS": str(named)}, here, configuration)
    named.touch()
    assert find_settings_file({"WEEKWRIGHT_SETTINGS": str(named)}, here, configuration) == named
    assert find_settings_file({"WEEKWRIGHT_SETTINGS": "settings.toml"}, here, configuration) == here / "settings.toml"


def test_a_settings_file_that_cannot_be_looked_for_is_named(tmp_path: Path) -> None:
    # Whoever runs the tests may be let into every folder, so another refusal of the system stands for the one of its rights.
    shut = tmp_path / ("a" * 300)

    for environment, here in (({"WEEKWRIGHT_SETTINGS": str(shut / "settings.toml")}, tmp_path), ({}, shut)):
        with pytest.raises(SettingsError, match=r"a/settings\.toml: expected a file that can be read \(File name too long\)$"):
            find_settings_file(environment, here, tmp_path)


def test_folders_follow_the_xdg_specification() -> None:
    # Source: XDG Base Directory Specification 0.8: the defaults, and that relative paths are ignored.
    assert data_folder(HOME) == Path("/home/ada/.local/share/weekwright")
    assert configuration_folder(HOME) == Path("/home/ada/.config/weekwright")
    assert data_folder({"XDG_DATA_HOME": "/data"}) == Path("/data/weekwright")
    assert configuration_folder({**HOME, "XDG_CONFIG_HOME": "relative"}) == Path("/home/ada/.config/weekwright")
    with pytest.raises(SettingsError, match="the environment: HOME: expected the user's home folder, or an absolute path in XDG_DATA_HOME"):
        data_folder({})


def test_there_are_as_many_colour_names_as_css_has() -> None:
    # Source: CSS Color Module Level 3, section 4.3: 147 names; each grey may be spelt both ways.
    assert len(COLOUR_NAMES) == 147
    assert {name.replace("grey", "gray") for name in COLOUR_NAMES if "grey" in name} == {name for name in COLOUR_NAMES if "gray" in name}


@given(st.integers(-(2**70), 2**70))
def test_a_share_is_taken_exactly_when_it_is_a_percentage(share: int) -> None:
    table = Table("file", "person", {"free_share": share})
    if 0 <= share <= 100:
        assert table.integer("free_share", 0, 100) == share
    else:
        with pytest.raises(SettingsError):
            table.integer("free_share", 0, 100)


def test_a_service_logs_in_words_and_is_polled_and_asked_by_nobody_unless_told_otherwise() -> None:
    assert load_settings(None, HOME).run == RunSettings(LogForm.WORDS, None, None, 1)


def test_the_environment_says_how_a_service_runs(tmp_path: Path) -> None:
    run = settings_of(
        tmp_path,
        "",
        WEEKWRIGHT_LOG="json",
        WEEKWRIGHT_HEALTH="[::1]:8090",
        WEEKWRIGHT_WEBHOOK="https://week.example:8443/telegram/",
        WEEKWRIGHT_LISTEN="127.0.0.1:9000",
        WEEKWRIGHT_WORKERS="4",
    ).run

    assert run == RunSettings(
        LogForm.JSON, Address("::1", 8090), WebhookSettings("https://week.example:8443/telegram", Address("127.0.0.1", 9000)), 4
    )
    assert str(run.health) == "[::1]:8090"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('log = "loud"', "run.log: expected one of words, json, not 'loud'"),
        ('health = "8090"', "run.health: expected a host and a port such as 127.0.0.1:8090, not '8090'"),
        ('health = "127.0.0.1:70000"', "run.health: expected a host and a port such as 127.0.0.1:8090, not '127.0.0.1:70000'"),
        ('webhook = "http://week.example"', "run.webhook: expected an https address on one of the ports that Telegram calls"),
        ('webhook = "https://week.example:8080"', "run.webhook: expected an https address on one of the ports that Telegram calls"),
        ('webhook = "https://week.example:x"', "run.webhook: expected an address such as"),
        ("workers = 0", "run.workers: expected a whole number from 1 to 30, not 0"),
        ("port = 1", "run.port: expected a known key"),
    ],
)
def test_a_wrong_setting_of_the_service_is_named(tmp_path: Path, line: str, said: str) -> None:
    assert fault_of(tmp_path, f"[run]\n{line}\n").startswith(said)
