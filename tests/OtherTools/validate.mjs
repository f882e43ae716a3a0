// Validates a profile against the published schema: node validate.mjs SCHEMA.json PROFILE.json
import { readFileSync } from "node:fs";
import Ajv2020 from "ajv/dist/2020.js";

const [schema, profile] = process.argv.slice(2).map((path) => JSON.parse(readFileSync(path, "utf8")));
const ajv = new Ajv2020({
  allErrors: true,
  strict: true,
  // The schema states types and required names where they apply, not again in every branch.
  strictTypes: false,
  strictRequired: false,
  // RFC 3339's form, as the draft has it.
  formats: { "date-time": /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/ },
});
const validate = ajv.compile(schema);
if (!validate(profile)) {
  for (const error of validate.errors) {
    console.log(`${error.instancePath || "/"} ${error.message}`);
  }
  process.exitCode = 1;
}
