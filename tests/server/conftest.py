"""A server that one file of tests may stop, fill and shut, beside the one that all share."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.server.cluster import Cluster
from tests.stores import Databases
from tracker.desk.people import people

PASSWORD = "quiet-otter-93"


@pytest.fixture(scope="module")
def own_server() -> Iterator[Cluster]:
    """A server of this file's own, which asks for a password."""
    cluster = Cluster(password=PASSWORD).start()
    yield cluster
    cluster.remove()


@pytest.fixture(scope="module")
def own_databases(own_server: Cluster, tmp_path_factory: pytest.TempPathFactory) -> Databases:
    return Databases(own_server, tmp_path_factory.mktemp("own"))


@pytest.fixture
def ben(log):
    return people.add_member(log, "Ben")
