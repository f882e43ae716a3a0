// Reads every Parquet file below a folder and writes its rows as JSON lines: node read-parquet.mjs FOLDER
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { asyncBufferFromFile, parquetReadObjects } from "hyparquet";
import { compressors } from "hyparquet-compressors";

const folder = process.argv[2];
for (const name of readdirSync(folder, { recursive: true }).filter((n) => n.endsWith(".parquet")).sort()) {
  const rows = await parquetReadObjects({ file: await asyncBufferFromFile(join(folder, name)), compressors });
  for (const row of rows) {
    console.log(JSON.stringify(row, (_, value) => (typeof value === "bigint" ? Number(value) : value)));
  }
}
