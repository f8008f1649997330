// Loads 3MF files into a general boolean mesh kernel, which takes only closed
// and oriented surfaces, and tells their volumes; with a centre distance it
// also mounts the second, a worm, on the first, its wheel, and tells by how
// much each is in the other's metal while the worm is shifted along its axis:
// nothing within the backlash, more on either side.
//
//     npm install && node check.mjs wheel.3mf worm.3mf [centre distance in mm]
//
// Nothing is shared with package mesh but its frames: a point (x, y, z) of the
// worm is mounted at (z, E − x, −y).
import {readFileSync} from 'node:fs';
import {inflateRawSync} from 'node:zlib';
import kernel from 'manifold-3d';

const names = process.argv.slice(2).filter(a => a.endsWith('.3mf'));
const distance = Number(process.argv.slice(2).find(a => !a.endsWith('.3mf')) ?? NaN);
if (names.length === 0) {
  console.error('want 3MF files');
  process.exit(2);
}

// part finds a part of a package by the central directory of its archive.
function part(file, name) {
  let at = file.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  let count = file.readUInt16LE(at + 10);
  at = file.readUInt32LE(at + 16);
  while (count-- > 0) {
    const length = file.readUInt16LE(at + 28);
    if (file.toString('utf8', at + 46, at + 46 + length) === name) {
      const local = file.readUInt32LE(at + 42);
      const start = local + 30 + file.readUInt16LE(local + 26) + file.readUInt16LE(local + 28);
      return inflateRawSync(file.subarray(start, start + file.readUInt32LE(at + 20))).toString('utf8');
    }
    at += 46 + length + file.readUInt16LE(at + 30) + file.readUInt16LE(at + 32);
  }
  throw new Error(`no part ${name}`);
}

const library = await kernel();
library.setup();
const {Manifold, Mesh} = library;

function load(name) {
  const text = part(readFileSync(name), '3D/3dmodel.model');
  const unit = text.match(/<model [^>]*unit="(\w+)"/)[1];
  const points = [...text.matchAll(/<vertex x="([^"]+)" y="([^"]+)" z="([^"]+)"/g)].flatMap(m => m.slice(1).map(Number));
  const facets = [...text.matchAll(/<triangle v1="(\d+)" v2="(\d+)" v3="(\d+)"/g)].flatMap(m => m.slice(1).map(Number));
  const solid = new Manifold(new Mesh({
    numProp: 3, vertProperties: new Float32Array(points), triVerts: new Uint32Array(facets),
  })); // throws where the surface is not closed and oriented
  console.log(`${name}: unit ${unit}, ${facets.length / 3} facets, status ${solid.status()}, ` +
    `genus ${solid.genus()}, pieces ${solid.decompose().length}, volume ${solid.volume().toFixed(3)} mm³`);
  return solid;
}

const solids = names.map(load);
if (distance > 0 && solids.length > 1) {
  const [wheel, worm] = solids;
  // Columns of a matrix that takes x, y, z and 1.
  const mounted = worm.transform([0, -1, 0, 0, 0, 0, -1, 0, 1, 0, 0, 0, 0, distance, 0, 1]);
  for (const shift of [-0.12, -0.08, -0.06, -0.04, -0.02, 0, 0.02, 0.04, 0.06, 0.08, 0.12]) {
    const common = wheel.intersect(mounted.translate([shift, 0, 0]));
    console.log(`worm shifted by ${shift.toFixed(2)} mm: ${common.volume().toFixed(5)} mm³ in each other`);
  }
}
