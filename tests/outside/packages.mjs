// Reads games with chess.js: a JSON list of their texts comes in, a list of what was read goes out, each as its plies
// and the last position, or an error. Usage: node packages.mjs, in a folder with chess.js in its node_modules.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const { Chess } = createRequire(`${process.cwd()}/`)('chess.js');

const read = (text) => {
  const chess = new Chess();
  try {
    chess.loadPgn(text);
  } catch (error) {
    return 'error';
  }
  return `${chess.history().length} ${chess.fen().split(' ')[0]}`;
};

console.log(JSON.stringify(JSON.parse(readFileSync(0, 'utf8')).map(read)));
