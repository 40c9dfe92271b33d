/** What an installed app says of itself to the system; and its icon, a board with a saw cut in it. */

const OPENS = {
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet': ['.xlsx'],
  'application/vnd.oasis.opendocument.spreadsheet': ['.ods'],
  'text/csv': ['.csv'],
};

const MANIFEST = {
  id: './',
  name: 'Kerfbook',
  short_name: 'Kerfbook',
  description:
    'A workbook for furniture makers: resize a table and every part, price and screw follows.',
  start_url: './',
  scope: './',
  display: 'standalone',
  background_color: '#faf8f3',
  theme_color: '#faf8f3',
  icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' }],
  // A second window of a workbook only reads: what is opened comes to the one that is there.
  launch_handler: { client_mode: 'focus-existing' },
  file_handlers: [{ action: './', accept: OPENS }],
};

const ICON = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">
<rect width="512" height="512" fill="#faf8f3"/>
<path d="M64 160h384v192H64z" fill="#cfa978" stroke="#23211d" stroke-width="12"/>
<path d="M88 208c96-24 144 24 240 0M88 256c112-20 160 24 250 4M88 304c96-24 144 20 240 4" fill="none" stroke="#8a6a44" stroke-width="6"/>
<path d="M352 152v148" stroke="#faf8f3" stroke-width="22"/>
<path d="M341 152v148h22V152" fill="none" stroke="#23211d" stroke-width="6"/>
</svg>
`;

/**
 * Adds both to the build, and the page says where they are.
 * @returns {import('vite').Plugin}
 */
export function manifest() {
  return {
    name: 'kerfbook-manifest',
    apply: 'build',
    transformIndexHtml: () => [
      { tag: 'link', attrs: { rel: 'manifest', href: './kerfbook.webmanifest' }, injectTo: 'head' },
    ],
    generateBundle() {
      const source = `${JSON.stringify(MANIFEST, undefined, 2)}\n`;
      this.emitFile({ type: 'asset', fileName: 'kerfbook.webmanifest', source });
      this.emitFile({ type: 'asset', fileName: 'icon.svg', source: ICON });
    },
  };
}
