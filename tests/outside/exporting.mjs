// Reads the exported games that exporting.py writes down, with chess.js. Usage:
//   node exporting.mjs FILE   with chess.js in node_modules here, above, or in the working directory.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const { Chess } = createRequire(`${process.cwd()}/`)('chess.js');

// The en passant square and the counters follow rules of the library's own.
const known = (fen) => fen.split(' ').slice(0, 3).join(' ');

let same = 0;
for (const line of readFileSync(process.argv[2], 'utf8').trim().split('\n')) {
  const { name, pgn, plies, final } = JSON.parse(line);
  const chess = new Chess();
  try {
    chess.loadPgn(pgn, { strict: true });
  } catch (error) {
    console.log(`DIFFERENCE: ${name}: ${error.message}`);
    process.exitCode = 1;
    continue;
  }
  if (chess.history().length !== plies || known(chess.fen()) !== known(final)) {
    console.log(`DIFFERENCE: ${name}: ${chess.history().length} plies to ${chess.fen()}, not ${plies} to ${final}`);
    process.exitCode = 1;
    continue;
  }
  same += 1;
}
console.log(`${same} exported games read the same by chess.js`);
if (same === 0) process.exitCode = 1;
