"""The bench on which books are hurt."""

import random

import pytest
from harness import Bench


@pytest.fixture
def bench(tmp_path):
    made = Bench(tmp_path, random.Random(20260601))
    yield made
    made.close()
