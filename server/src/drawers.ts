/**
 * What is kept with an object, in the object itself: a hidden field is laid on it, which nobody else can see, copies do not
 * take along, and which goes when the object goes. A `WeakMap` for each kind of answer does the same, but each time the
 * memory is cleared up all of them are gone through while everything stands still: three times as long as all else.
 */

/** What is kept with an object for one use, and the next use's. */
class Drawer {
  content: unknown = undefined;

  constructor(
    readonly use: object,
    public next: Drawer | undefined,
  ) {}
}

/** A constructor that answers an object that is there, so that the fields of the class below are laid on that one. */
class Given {
  constructor(given: object) {
    // biome-ignore lint/correctness/noConstructorReturn: that is what it is for.
    return given;
  }
}

class Chest extends Given {
  #first: Drawer | undefined = undefined;

  /** The drawer opened last is the first of the chest: whoever asks once asks again. */
  static open(owner: object, use: object): Drawer {
    if (!(#first in owner)) new Chest(owner);
    const chest = owner as Chest;
    const first = chest.#first;
    let before: Drawer | undefined;
    for (let drawer = first; drawer; drawer = drawer.next) {
      if (drawer.use === use) {
        if (before) {
          before.next = drawer.next;
          drawer.next = first;
          chest.#first = drawer;
        }
        return drawer;
      }
      before = drawer;
    }
    const made = new Drawer(use, first);
    chest.#first = made;
    return made;
  }
}

/** What is kept with the owner for this use; nothing at first. Owners must not be sealed. */
export const drawerOf: (owner: object, use: object) => { content: unknown } = Chest.open;
