// Asks the ClickHouse engine a question of an export's tables and writes the rows as JSON: node query.mjs EXPORT QUERY.sql
import { readFileSync } from "node:fs";
import { Session } from "chdb";

const [folder, file] = process.argv.slice(2);
const session = new Session();
session.query("create database shelf");
for (const table of ["body", "profile", "iso_figure", "level", "finding"]) {
  session.query(`create view shelf.${table} as select * from file('${folder}/${table}/*/*/*.parquet', Parquet) settings use_hive_partitioning = 1`);
}

// Nulls join and group as they do in standard SQL.
const settings = "settings join_use_nulls = 1, output_format_json_quote_64bit_integers = 0, output_format_json_quote_decimals = 0";
const words = readFileSync(file, "utf8").replace(/\b(from|join) (body|profile|iso_figure|level|finding)\b/g, "$1 shelf.$2");
console.log(session.query(`${words}\n${settings}`, "JSONCompact"));
session.cleanup();
