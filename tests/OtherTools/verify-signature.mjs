// Verifies a bundle's detached JSON Web Signature by RFC 7515 and RFC 7638 alone:
// node verify-signature.mjs MANIFEST.json MANIFEST.json.jws PUBLIC.pem; prints the key's thumbprint.
import { createHash, createPublicKey, verify } from "node:crypto";
import { readFileSync } from "node:fs";

const [manifest, jws, pem] = process.argv.slice(2).map((path) => readFileSync(path));
const [header, payload, signature] = jws.toString("ascii").split(".");
const key = createPublicKey(pem);
const { crv, kty, x, y } = key.export({ format: "jwk" });
const thumbprint = createHash("sha256").update(JSON.stringify({ crv, kty, x, y })).digest("base64url");
const words = JSON.parse(Buffer.from(header, "base64url"));
const input = Buffer.from(`${header}.${manifest.toString("base64url")}`, "ascii");
const isGood =
  payload === "" &&
  words.alg === "ES256" &&
  words.kid === thumbprint &&
  words.jwk.x === x &&
  words.jwk.y === y &&
  verify("sha256", input, { key, dsaEncoding: "ieee-p1363" }, Buffer.from(signature, "base64url"));
console.log(isGood ? thumbprint : "not valid");
process.exitCode = isGood ? 0 : 1;
