/**
 * The world around the simulated phones of one page: each has databases, locks, a clock and a network of its own, all else is
 * the browser's. `openStore` is the app's own store as a function of that world, see pwa/tests/queue.ts.
 *
 * An action runs until it is done or asks the network; what it asks is handed out, and it goes on with what `reply` is given.
 */
globalThis.phones = (() => {
  const all = new Map();

  /** The globals of one life of a phone, from opening the app to closing it. */
  function worldOf(phone) {
    const life = `${phone.name}/${phone.lives}/`;
    const now = () => phone.clock;
    return {
      indexedDB: {
        open: (name, version) => indexedDB.open(`${phone.name}/${name}`, version),
      },
      navigator: {
        // The browser frees a dead tab's locks.
        locks: { request: (name, work) => navigator.locks.request(life + name, work) },
      },
      Date: class extends Date {
        constructor(...given) {
          super(...(given.length === 0 ? [now()] : given));
        }
        static now() {
          return now();
        }
      },
      BroadcastChannel: class extends BroadcastChannel {
        constructor(name) {
          super(life + name);
        }
      },
      // The schedule says when there is a round, not a timer.
      setTimeout: () => 0,
      fetch: (path, { method, body }) =>
        new Promise((resolve, reject) => {
          phone.asked = { resolve, reject };
          phone.hear({ asks: { method, path, body: body ?? "" } });
        }),
    };
  }

  async function born(phone) {
    phone.lives += 1;
    phone.store = openStore(worldOf(phone));
    await phone.store.ready();
  }

  /** Runs on until the action is over or waits for the network. */
  function next(phone, goOn) {
    const heard = new Promise((resolve) => {
      phone.hear = resolve;
    });
    goOn();
    return Promise.race([phone.action, heard]);
  }

  return {
    async open(name, identity) {
      const phone = { name, lives: 0, clock: Date.now(), store: null, action: null, asked: null, hear: null };
      all.set(name, phone);
      await born(phone);
      await phone.store.belongs(identity);
    },
    /** The app is closed, whatever it was at, and opened again. */
    async reopen(name) {
      const phone = all.get(name);
      await phone.store.close();
      await born(phone);
    },
    act(name, call, given, clock) {
      const phone = all.get(name);
      phone.clock = clock;
      return next(phone, () => {
        phone.action = phone.store[call](...given).then(
          (done) => ({ done: done ?? null }),
          (error) => ({ failed: { name: error.name, meaning: error.meaning ?? "", message: String(error.message) } }),
        );
      });
    },
    /** The network's answer; null when none comes. */
    reply(name, answer) {
      const phone = all.get(name);
      return next(phone, () => {
        if (answer === null) phone.asked.reject(new TypeError("Failed to fetch"));
        else phone.asked.resolve(new Response(answer.body, { status: answer.status, headers: answer.headers }));
      });
    },
    async forget() {
      for (const phone of all.values()) {
        await phone.store.close();
        indexedDB.deleteDatabase(`${phone.name}/pinchbolt`);
      }
      all.clear();
    },
  };
})();
