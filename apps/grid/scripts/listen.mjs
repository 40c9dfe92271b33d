import { createServer } from 'node:http';

/**
 * A browser that goes to `localhost` takes the address of either family: with only one of them listened
 * on, it may show another program that has the same port of the other.
 */
const LOOPBACKS = ['127.0.0.1', '::1'];

/** What listening fails with where a machine has no such address: without IPv6 one family is all. */
const NO_SUCH_ADDRESS = new Set(['EADDRNOTAVAIL', 'EAFNOSUPPORT', 'EINVAL', 'EPROTONOSUPPORT']);

/** How often a port that is free on the first address only is given up for another free one. */
const TRIES = 20;

/**
 * Listens on a port of every loopback address of this machine, or on none of them.
 * @param {import('node:http').RequestListener} answer
 * @param {number} port 0 takes one that is free on all of them
 * @param {readonly string[]} [addresses] the first has to be there
 * @returns {Promise<{ port: number, close: () => Promise<void> }>}
 * @throws an `EADDRINUSE` error when the port is taken on any of them
 */
export async function listen(answer, port, addresses = LOOPBACKS) {
  for (let left = TRIES; ; left -= 1) {
    /** @type {import('node:http').Server[]} */
    const servers = [];
    let at = port;
    try {
      for (const address of addresses) {
        const server = await listenOn(answer, at, address, servers.length > 0);
        if (server === undefined) continue;
        servers.push(server);
        at = portOf(server, at);
      }
      return { port: at, close: () => closeAll(servers) };
    } catch (error) {
      await closeAll(servers);
      if (port !== 0 || left === 0 || codeOf(error) !== 'EADDRINUSE') throw error;
    }
  }
}

/**
 * @param {import('node:http').RequestListener} answer @param {number} port @param {string} address
 * @param {boolean} mayLack
 * @returns {Promise<import('node:http').Server | undefined>} undefined where there is no such address
 */
function listenOn(answer, port, address, mayLack) {
  const server = createServer(answer);
  return new Promise((done, failed) => {
    // Also later on, when it says only that one connection could not be taken.
    server.on('error', (error) => {
      if (mayLack && NO_SUCH_ADDRESS.has(codeOf(error) ?? '')) done(undefined);
      else failed(error);
    });
    server.listen(port, address, () => done(server));
  });
}

/** @param {import('node:http').Server} server @param {number} otherwise */
function portOf(server, otherwise) {
  const bound = server.address();
  return typeof bound === 'object' && bound !== null ? bound.port : otherwise;
}

/** @param {readonly import('node:http').Server[]} servers */
async function closeAll(servers) {
  await Promise.all(
    servers.map(
      (server) =>
        new Promise((done) => {
          server.close(() => done(undefined));
          server.closeAllConnections();
        }),
    ),
  );
}

/** @param {unknown} error @returns {string | undefined} */
function codeOf(error) {
  return error instanceof Error && 'code' in error && typeof error.code === 'string'
    ? error.code
    : undefined;
}
