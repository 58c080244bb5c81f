"""The page of the routes says what the API description says."""

from builders.routes import PAGE, written


def test_the_routes_are_written_down():
    assert PAGE.read_text(encoding="utf-8") == written(), "run python builders/routes.py"
