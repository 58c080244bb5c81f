"""Two programs on one store: everybody waits for their turn, and all that was saved is there."""

from concurrent.futures import ThreadPoolExecutor

from foilwright.store.opening import Store, open_store
from foilwright.store.trails import entries
from foilwright.store.versions import heads, history, save

SAVES = 12


def test_two_stores_and_four_writers(where):
    """Each writer makes a chain of its own from the same beginning: at the end they stand side by side."""
    stores = [open_store(where), open_store(where)]
    first = save(stores[0], "day", "a day", "beginning", "shed").version.id

    def write(store: Store, who: str) -> list[int]:
        parent, made = first, []
        for i in range(SAVES):
            parent = save(store, "day", "a day", f"{who} {i}", who, parent).version.id
            made.append(parent)
        return made

    with ThreadPoolExecutor(4) as pool:
        running = [pool.submit(write, stores[i % 2], f"writer {i}") for i in range(4)]
        made = [number for one in running for number in one.result()]
    for store in stores:
        kept = history(store, "day", "a day")
        assert [one.id for one in kept] == [first, *sorted(made)]
        assert len(entries(store)) == 4 * SAVES + 1
        assert sorted(one.made_by for one in heads(store, "day", "a day")) == [
            f"writer {i}" for i in range(4)
        ]
        store.close()


def test_two_writers_of_a_new_thing_make_one(where):
    stores = [open_store(where), open_store(where)]
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(lambda store: save(store, "day", "a new day", "words", "shed"), stores))
    assert len(history(stores[0], "day", "a new day")) == 2
    for store in stores:
        store.close()


def test_a_new_store_opened_twice_at_once(where):
    """Both bring the tables up to date; one of them finds it done."""
    with ThreadPoolExecutor(2) as pool:
        opened = list(pool.map(open_store, [where, where]))
    save(opened[0], "day", "a day", "words", "shed")
    assert len(history(opened[1], "day", "a day")) == 1
    for store in opened:
        store.close()
