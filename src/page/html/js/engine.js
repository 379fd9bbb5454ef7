// The door to the engine: a question goes in as JSON, the answer comes out as an object. Used by the page and by its worker.

/** The bytes of the engine out of their base64 and gzip. */
async function unpacked(base64) {
  const packed = Uint8Array.from(atob(base64.trim()), (letter) => letter.charCodeAt(0));
  const open = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(open).arrayBuffer();
}

/** Starts an engine and gives the function that asks it. */
async function started(bytes) {
  const { instance } = await WebAssembly.instantiate(bytes, {});
  const { memory, take, give, ask } = instance.exports;
  const writer = new TextEncoder();
  const reader = new TextDecoder();
  return (question) => {
    const text = writer.encode(JSON.stringify(question));
    const at = take(text.length) >>> 0;
    new Uint8Array(memory.buffer, at, text.length).set(text);
    const answer = BigInt.asUintN(64, ask(at, text.length));
    const from = Number(answer >> 32n);
    const length = Number(answer & 0xffffffffn);
    const said = reader.decode(new Uint8Array(memory.buffer, from, length));
    give(from, length);
    return JSON.parse(said);
  };
}

/** What went wrong in an answer, in a sentence; empty if nothing did. */
function fault(answer) {
  if (answer === null || typeof answer !== "object") return "";
  if (answer.error) return answer.error;
  if (!answer.problems) return "";
  return answer.problems
    .map((p) => `${p.line ? `line ${p.line}: ` : ""}${p.path ? `${p.path}: ` : ""}found ${p.found}; wanted: ${p.wanted}`)
    .join("; ");
}

/** Why the model has no numbers for a job that can be built; empty where it has. */
function outsideOf(found, us) {
  return (found.outside ?? []).map((both) => both[us ? 1 : 0]).join(" ");
}
