// Reads the lines that make.py writes and computes each truth of standard chess again with chess.js,
// as far as that library can tell. Stops at the first difference. Usage:
//   node check.mjs FILE…   with chess.js in node_modules here, above, or in the working directory.
import { createReadStream } from 'node:fs';
import { createRequire } from 'node:module';
import { createInterface } from 'node:readline';

const require = createRequire(`${process.cwd()}/`);
const { Chess, SQUARES } = require('chess.js');

const ROLES = { pawn: 'p', knight: 'n', bishop: 'b', rook: 'r', queen: 'q', king: 'k' };
const COLORS = { white: 'w', black: 'b' };
const VALUES = { p: 1, n: 3, b: 3, r: 5, q: 9, k: 0 };
// a1, b1, … h8; chess.js counts from a8.
const IN_ORDER = [...SQUARES].sort((a, b) => (a[1] === b[1] ? cmp(a[0], b[0]) : cmp(a[1], b[1])));

function cmp(a, b) {
  return a < b ? -1 : a > b ? 1 : 0;
}

function inOrder(squares) {
  const held = new Set(squares);
  return IN_ORDER.filter((square) => held.has(square));
}

// A game followed move by move, with a book of which man is which.
class Game {
  constructor(start) {
    this.start = start;
    this.chess = new Chess(start, { skipValidation: true });
    this.moves = [];
    this.square = new Map();
    this.first = new Map();
    for (const man of men(this.chess)) {
      this.square.set(man.square, man.square);
      this.first.set(man.square, man);
    }
  }

  leadsTo(row) {
    return (
      this.start === row.start &&
      this.moves.length <= row.moves.length &&
      this.moves.every((move, ply) => move === row.moves[ply])
    );
  }

  play(uci) {
    const from = uci.slice(0, 2);
    const to = uci.slice(2, 4);
    const move = this.chess.move({ from, to, promotion: uci[4] });
    const rank = from[1];
    if (move.isEnPassant()) this.take(to[0] + rank);
    if (move.isCapture() && !move.isEnPassant()) this.take(to);
    if (move.isKingsideCastle()) this.carry('h' + rank, 'f' + rank);
    if (move.isQueensideCastle()) this.carry('a' + rank, 'd' + rank);
    this.carry(from, to);
    this.moves.push(uci);
  }

  take(square) {
    this.move(square, null);
  }

  carry(from, to) {
    this.move(from, to);
  }

  move(from, to) {
    for (const [home, now] of this.square) {
      if (now === from) {
        this.square.set(home, to);
        return;
      }
    }
    throw new Error(`nobody stands on ${from}`);
  }
}

function men(chess) {
  return chess.board().flat().filter((man) => man !== null);
}

// What chess.js knows about one position, computed when first asked for.
class Position {
  constructor(game) {
    this.game = game;
    this.chess = game.chess;
    this.memo = new Map();
  }

  once(name, compute) {
    if (!this.memo.has(name)) this.memo.set(name, compute());
    return this.memo.get(name);
  }

  get legal() {
    return this.once('legal', () => this.chess.moves({ verbose: true }));
  }

  get legalNames() {
    return this.once('names', () => new Set(this.legal.map((move) => move.lan)));
  }

  attackers(square, color) {
    return this.once(square + color, () => this.chess.attackers(square, color));
  }

  standing(color, type) {
    return men(this.chess).filter((man) => man.color === color && man.type === type);
  }

  checkers() {
    const turn = this.chess.turn();
    const [king] = this.standing(turn, 'k');
    const found = this.attackers(king.square, turn === 'w' ? 'b' : 'w');
    if (found.length > 0 !== this.chess.inCheck()) throw new Error('chess.js contradicts itself');
    return found;
  }
}

// One entry a kind: the expected answer, or undefined where chess.js cannot tell.
const TRUTHS = {
  whereabouts({ man }, { game }) {
    const square = game.square.get(man);
    return square === null ? { gone: true } : { square };
  },
  occupant({ square }, { chess }) {
    const man = chess.get(square);
    if (!man) return { piece: null };
    return { piece: man.color === 'w' ? man.type.toUpperCase() : man.type };
  },
  standing({ color, role }, position) {
    const found = position.standing(COLORS[color], ROLES[role]);
    return { squares: inOrder(found.map((man) => man.square)) };
  },
  attacks({ square }, position) {
    const { color } = position.chess.get(square);
    const seen = IN_ORDER.filter((to) => position.attackers(to, color).includes(square));
    const own = seen.filter((to) => position.chess.get(to)?.color === color);
    const squares = seen.filter((to) => !own.includes(to));
    return own.length > 0 ? { squares, optional: own } : { squares };
  },
  attackers({ color, square }, position) {
    return { squares: inOrder(position.attackers(square, COLORS[color])) };
  },
  moves({ square }, position) {
    const found = position.legal.filter((move) => move.from === square);
    return { squares: inOrder(found.map((move) => move.to)) };
  },
  legality({ move }, position) {
    return { legal: position.legalNames.has(move) };
  },
  check(_, position) {
    return { squares: inOrder(position.checkers()) };
  },
  rebuild(_, { chess }) {
    return { placement: chess.fen().split(' ')[0] };
  },
  checks(_, position) {
    return moveList(position, (move) => /[+#]$/.test(move.san));
  },
  captures(_, position) {
    return moveList(position, (move) => move.captured !== undefined);
  },
  mate(_, position) {
    return moveList(position, (move) => move.san.endsWith('#'));
  },
  hanging({ color }, position) {
    const own = COLORS[color];
    const enemy = own === 'w' ? 'b' : 'w';
    const found = men(position.chess)
      .filter((man) => man.color === own && man.type !== 'k')
      .map((man) => man.square)
      .filter((square) => position.attackers(square, enemy).length > 0)
      .filter((square) => position.attackers(square, own).length === 0);
    return { squares: inOrder(found) };
  },
  exchange({ square }, { chess }) {
    return { points: exchange(chess, square) };
  },
  balance(_, { chess }) {
    const sign = (man) => (man.color === 'w' ? 1 : -1);
    return { points: men(chess).reduce((sum, man) => sum + sign(man) * VALUES[man.type], 0) };
  },
  rights({ color }, { chess }) {
    const { k, q } = chess.getCastlingRights(COLORS[color]);
    return { wings: [...(k ? ['short'] : []), ...(q ? ['long'] : [])] };
  },
  taken({ color }, { game }) {
    const gone = [...game.first.values()]
      .filter((man) => man.color === COLORS[color] && game.square.get(man.square) === null)
      .map((man) => man.type.toUpperCase());
    return { pieces: gone.sort((a, b) => 'QRBNP'.indexOf(a) - 'QRBNP'.indexOf(b)).join('') };
  },
  played({ color, number }, { game }) {
    const [, turn, , , , full] = game.start.split(' ');
    const first = 2 * Number(full) + (turn === 'b' ? 1 : 0);
    return { move: game.moves[2 * number + (color === 'black' ? 1 : 0) - first] };
  },
};

function moveList(position, chosen) {
  const found = position.legal.filter(chosen);
  const order = (move) => IN_ORDER.indexOf(move.from) * 64 + IN_ORDER.indexOf(move.to);
  found.sort((a, b) => order(a) - order(b));
  return { moves: found.map((move) => move.lan) };
}

// The best outcome of taking on the square; undefined where no capture there is legal.
function exchange(chess, square) {
  const victim = VALUES[chess.get(square).type];
  let best;
  for (const move of chess.moves({ verbose: true })) {
    if (move.to !== square || !move.captured || move.isEnPassant()) continue;
    chess.move(move);
    const gain = victim + (move.promotion ? VALUES[move.promotion] - 1 : 0);
    const outcome = gain - Math.max(0, exchange(chess, square) ?? 0);
    chess.undo();
    best = best === undefined ? outcome : Math.max(best, outcome);
  }
  return best;
}

// Of a legality, chess.js tells only whether the move is legal.
function comparable(kind, expected) {
  return kind === 'legality' ? { legal: expected.legal } : expected;
}

function verify(row, game, where) {
  const position = new Position(game);
  if (game.chess.fen() !== row.position) {
    throw new Error(`${where}: position ${row.position}, but by chess.js ${game.chess.fen()}`);
  }
  for (const { kind, subject, expected } of row.truths) {
    const found = JSON.stringify(TRUTHS[kind](subject, position));
    const told = JSON.stringify(comparable(kind, expected));
    if (found !== told) {
      const asked = `${kind} ${JSON.stringify(subject)} in ${row.position}`;
      throw new Error(`${where}: ${asked}: ${told}, but by chess.js ${found}`);
    }
    counts[kind] = (counts[kind] ?? 0) + 1;
  }
  if (row.every) verifyEvery(row.every, position, where);
}

// In a row of every move, the legal ones are written one by one, never as a short form of many
// but for the four promotions.
function verifyEvery(every, position, where) {
  const told = new Set();
  for (const [reason, , names] of every) {
    if (reason !== 'legal') continue;
    for (const name of names.split(' ')) {
      if (name.endsWith('+')) for (const letter of 'qrbn') told.add(name.slice(0, 4) + letter);
      else told.add(name);
    }
  }
  const legal = position.legalNames;
  if (told.size !== legal.size || [...told].some((name) => !legal.has(name))) {
    throw new Error(`${where}: every legal move: ${[...told]}, but by chess.js ${[...legal]}`);
  }
  counts['legality, every move'] = (counts['legality, every move'] ?? 0) + 64 * 64 * 5;
}

const counts = {};
let positions = 0;
let skipped = 0;

for (const path of process.argv.slice(2)) {
  let game = null;
  let number = 0;
  for await (const text of createInterface({ input: createReadStream(path) })) {
    number += 1;
    const row = JSON.parse(text);
    if (row.variant !== 'standard') {
      skipped += 1;
      continue;
    }
    if (!game?.leadsTo(row)) game = new Game(row.start);
    for (const move of row.moves.slice(game.moves.length)) game.play(move);
    verify(row, game, `${path}:${number}`);
    positions += 1;
  }
}
console.log(`chess.js agrees on ${positions} positions (${skipped} of Chess960 left out)`);
for (const kind of Object.keys(counts).sort()) console.log(`  ${kind}: ${counts[kind]}`);
if (positions === 0) throw new Error('no position was read');
