// Slow questions, away from the sliders. The first message brings the engine; every other is a question with a number.

let asked = null;

onmessage = async (message) => {
  const { bytes, number, question } = message.data;
  if (bytes) {
    asked = started(bytes);
    return;
  }
  try {
    const ask = await asked;
    postMessage({ number, answer: ask(question) });
  } catch (error) {
    postMessage({ number, answer: { error: `the engine stopped: ${error.message}` }, broken: true });
  }
};
