import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { createServer } from 'vite';
import { expect, it } from 'vitest';

it('are served with their pictures while the app is worked on, from sources and without a build', async () => {
  const root = join(import.meta.dirname, '../..');
  const server = await createServer({
    root,
    configFile: join(root, 'vite.config.ts'),
    server: { middlewareMode: true, hmr: false, ws: false },
    logLevel: 'error',
  });
  try {
    const served = await server.environments.client.transformRequest(
      '/src/gallery/built-in-cards.ts',
    );
    for (const file of readdirSync(join(root, '../../templates'))) {
      expect(served?.code).toContain(`"${file.replace(/\.json$/, '')}"`);
    }
    expect(served?.code.match(/<svg/g)?.length).toBeGreaterThan(10);
  } finally {
    await server.close();
  }
});
