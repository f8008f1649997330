// Cuts tooth spaces of the worked case with a general boolean mesh kernel, so
// that anyone can hold time and figures of package cut against it. Its
// BenchmarkWholeWheel cuts all 40 spaces in 18 steps of infeed, this script as
// many as it is told, one by one, at full depth at once; at that depth package
// cut is to find 209.860 mm³ and the arcs −1.570352 and 1.570352 (z = 0),
// −1.591704 and 1.101749 (z = 5).
//
//     npm install && node cut.mjs [spaces]
//
// Nothing is shared with package cut but the frames and signs: the wheel's
// axis is Z, the hob's axis lies along X at y = E, a point of the hob at
// radius r, place u and angle phi stands at (u, E − r·cos phi, r·sin phi), and
// angles about the wheel count clockwise from +Y.
import {performance} from 'node:perf_hooks';
import kernel from 'manifold-3d';

// The worked case, mm: axial module 2, 40 teeth, one start, right hand, form
// ZA, plain blank, at full depth.
const module_ = 2, teeth = 40, gashes = 10;
const reference = 20, tip = 22.5, root = 17, slope = Math.tan(20 * Math.PI / 180);
const outside = 42, face = 20, E = 60;
const screw = module_ / 2; // lead/2π of one start

// Fineness. The mesh goes on by STEP of hob angle at a time, in chords: the
// tip falls short of its arc by tip·STEP²/8, 0.2 µm, a flank by a third of
// that. Since the wheel turns on the way, the corners of a cell do not lie in
// a plane; the less of the flank a cell holds, the less its diagonal strays:
// with PARTS cells to a flank 0.05 µm. The mesh keeps its points in single
// precision, to 0.004 µm.
const STEP = 0.5 * Math.PI / 180;
const PARTS = 6;
const RIM = 3600; // sides of the blank

const spaces = process.argv.length > 2 ? Number(process.argv[2]) : 1;
if (!(Number.isInteger(spaces) && spaces >= 1 && spaces <= teeth)) {
  console.error(`want 1 to ${teeth} spaces, have ${process.argv[2]}`);
  process.exit(2);
}

const library = await kernel();
library.setup(); // its classes are whole only after this
const {Manifold, Mesh} = library;

// half is half the thickness of the thread at radius r; ZA is straight in the
// axial section.
const half = r => Math.PI * module_ / 4 - (r - reference) * slope;

// outline is the tooth's edge as [u, r], in a sense that faces the mesh out:
// up the left flank and down the right one.
const flank = Array.from({length: PARTS + 1}, (_, i) => root + (tip - root) * i / PARTS);
const outline = [...flank.map(r => [-half(r), r]), ...flank.toReversed().map(r => [half(r), r])];

// swept is the solid that a tooth with its middle at u takes from the wheel
// while its gash goes through the face. theta is the wheel's angle when the
// gash stands on the line of centres. At phi the hob has turned back by phi,
// and the wheel, geared to it, by phi/teeth.
//
// The way is one step longer at both ends than the root needs to leave the
// face.
function swept(u, theta) {
  const steps = Math.ceil(Math.asin(face / 2 / root) / STEP) + 1;
  const n = outline.length;
  const points = [], triangles = [];
  for (let i = -steps; i <= steps; i++) {
    const phi = i * STEP;
    const sin = Math.sin(theta - phi / teeth), cos = Math.cos(theta - phi / teeth);
    for (const [du, r] of outline) {
      const x = u + du, y = E - r * Math.cos(phi), z = r * Math.sin(phi);
      points.push(x * cos + y * sin, y * cos - x * sin, z);
    }
  }
  for (let i = 0; i < 2 * steps; i++) {
    for (let j = 0; j < n; j++) {
      const a = i * n + j, b = i * n + (j + 1) % n;
      triangles.push(a, b, a + n, b, b + n, a + n);
    }
  }
  const end = 2 * steps * n;
  for (let j = 1; j + 1 < n; j++) {
    triangles.push(0, j + 1, j, end, end + j, end + j + 1);
  }
  return new Manifold(new Mesh({
    numProp: 3, vertProperties: new Float32Array(points), triVerts: new Uint32Array(triangles),
  }));
}

// passes are the swept solids of all teeth that strike a space while the work
// turns once. Tooth 0 of gash 0 stands on the line of centres at psi = 0; gash
// j does so at psi = 2π·n − 2π·j/gashes, and then its tooth k, with n + k
// equal to the space, stands at screw·2π·j/gashes + k·pitch.
//
// A tooth that stands farther to the side than the blank is wide at the depth
// of its tip cuts air and is left out.
function passes(space) {
  const list = [];
  const reach = Math.sqrt(outside ** 2 - (E - tip) ** 2) + half(root);
  for (let n = space - teeth / 2; n < space + teeth / 2; n++) {
    for (let j = 0; j < gashes; j++) {
      const gash = 2 * Math.PI * j / gashes;
      const u = screw * gash + (space - n) * Math.PI * module_;
      if (Math.abs(u) <= reach) list.push(swept(u, (2 * Math.PI * n - gash) / teeth));
    }
  }
  return list;
}

// arcs are the least and the greatest angle of a slice's outline about the
// direction of a space, on the circle of radius R, times R. Sides that cross
// the circle are cut with it where they do.
function arcs(solid, z, R, space) {
  let low = Infinity, high = -Infinity;
  for (const polygon of solid.slice(z).toPolygons()) {
    polygon.forEach((b, i) => {
      const a = polygon.at(i - 1);
      const d = [b[0] - a[0], b[1] - a[1]];
      const A = d[0] ** 2 + d[1] ** 2, B = a[0] * d[0] + a[1] * d[1];
      const C = a[0] ** 2 + a[1] ** 2 - R ** 2;
      const square = B * B - A * C;
      if (!(A > 0 && square > 0)) return;
      for (const t of [(-B - Math.sqrt(square)) / A, (-B + Math.sqrt(square)) / A]) {
        if (t < 0 || t > 1) continue;
        const angle = Math.atan2(a[0] + t * d[0], a[1] + t * d[1]) - 2 * Math.PI * space / teeth;
        const off = Math.atan2(Math.sin(angle), Math.cos(angle));
        if (Math.abs(off) > Math.PI / teeth) continue; // of a neighbour
        low = Math.min(low, off * R);
        high = Math.max(high, off * R);
      }
    });
  }
  return [low, high];
}

const blank = Manifold.cylinder(face, outside, outside, RIM, true);
let wheel = blank;
for (let k = 0, before = blank.volume(); k < spaces; k++) {
  const cpu = process.cpuUsage(), wall = performance.now();
  const tools = passes(k);
  const triangles = tools.reduce((sum, tool) => sum + tool.numTri(), 0);
  wheel = tools.reduce((solid, tool) => solid.subtract(tool), wheel);
  const left = wheel.volume(); // a solid is worked out only when it is asked for something
  tools.forEach(tool => tool.delete());
  const used = process.cpuUsage(cpu);
  console.log(`space ${k}: ${tools.length} passes of ${triangles} triangles in all, ` +
    `${((used.user + used.system) / 1e6).toFixed(2)} s of processor, ` +
    `${((performance.now() - wall) / 1e3).toFixed(2)} s by the clock, ` +
    `${(before - left).toFixed(3)} mm³ removed`);
  before = left;
}
for (const z of [0, 5]) {
  const [low, high] = arcs(wheel, z, 40, 0);
  console.log(`space 0, radius 40, z = ${z}: arcs ${low.toFixed(6)} and ${high.toFixed(6)} mm`);
}
