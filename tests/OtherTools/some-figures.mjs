// Reads figures of an export's iso_figure by hyparquet, chosen by a number that grows by a fixed step: node some-figures.mjs FOLDER COUNT SEED
// Writes JSON lines: profile, iso, channel, figure, value, standard_uncertainty, lower95, upper95, bound.
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from "hyparquet";
import { compressors } from "hyparquet-compressors";

const [folder, count, seed] = [process.argv[2], Number(process.argv[3]), Number(process.argv[4])];
const files = [];
for (const name of readdirSync(folder, { recursive: true }).filter((n) => n.endsWith(".parquet")).sort()) {
  const file = await asyncBufferFromFile(join(folder, name));
  files.push({ file, rows: Number((await parquetMetadataAsync(file)).num_rows) });
}
const rows = files.reduce((sum, f) => sum + f.rows, 0);
let state = BigInt(seed);
const chosen = new Set();
while (chosen.size < Math.min(count, rows)) {
  state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
  chosen.add(Number((state >> 11n) % BigInt(rows)));
}
let before = 0;
for (const { file, rows } of files) {
  const own = [...chosen].filter((c) => c >= before && c < before + rows).map((c) => c - before).sort((a, b) => a - b);
  // A row group at a time: all at once is gigabytes.
  const part = 122880;
  for (let from = 0; from < rows; from += part) {
    const wanted = own.filter((o) => o >= from && o < from + part);
    if (wanted.length > 0) {
      const read = await parquetReadObjects({ file, compressors, rowStart: from, rowEnd: Math.min(rows, from + part) });
      for (const one of wanted) {
        const { profile, iso, channel, figure, value, standard_uncertainty, lower95, upper95, bound } = read[one - from];
        console.log(JSON.stringify({ profile, iso, channel, figure, value, standard_uncertainty, lower95, upper95, bound }));
      }
    }
  }
  before += rows;
}
