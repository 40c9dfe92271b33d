/**
 * A workbook of numbers and formulas as a spreadsheet in flat XML of OpenDocument, without values: what
 * opens it works them out. Formulas may use addresses and ranges of their own sheet.
 * @param {import('./books.mjs').Contents} contents
 */
export function flatSheet({ sheets }) {
  const tables = Object.entries(sheets).map(([name, rows]) => {
    const lines = rows.map((row) => `<table:table-row>${row.map(cell).join('')}</table:table-row>`);
    return `<table:table table:name="${name}">${lines.join('\n')}</table:table>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet>
${tables.join('\n')}
</office:spreadsheet></office:body></office:document>
`;
}

const ADDRESSES = /(\$?[A-Z]+\$?\d+)(?::(\$?[A-Z]+\$?\d+))?/g;

/** @param {string | number | boolean | null} content */
function cell(content) {
  if (content === null) return '<table:table-cell/>';
  if (typeof content === 'number') {
    return `<table:table-cell office:value-type="float" office:value="${content}"/>`;
  }
  if (typeof content !== 'string' || !content.startsWith('=')) {
    throw new Error(`only numbers and formulas are written, not ${content}`);
  }
  const formula = content
    .replaceAll(',', ';')
    .replace(ADDRESSES, (_, first, last) => `[.${first}${last === undefined ? '' : `:.${last}`}]`)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('"', '&quot;');
  return `<table:table-cell table:formula="of:${formula}"/>`;
}
