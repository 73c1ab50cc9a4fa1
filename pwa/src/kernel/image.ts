/** The engine's memory as one piece, small enough to keep: taking it up again is a copy, where importing the kernel is work. */

const PAGE = 4096;
const NUMBER = 4;

/** The pages of a memory that are not all zeros, each after its number. */
export function pagesOf(memory: Uint8Array): Uint8Array<ArrayBuffer> {
  const words = new Uint32Array(memory.buffer, memory.byteOffset, memory.byteLength / NUMBER);
  const each = PAGE / NUMBER;
  const used: number[] = [];
  for (let page = 0; page < memory.byteLength / PAGE; page++) {
    const end = (page + 1) * each;
    let at = page * each;
    while (at < end && words[at] === 0) at++;
    if (at < end) used.push(page);
  }
  const image = new Uint8Array((used.length + 1) * NUMBER + used.length * PAGE);
  const numbers = new DataView(image.buffer);
  numbers.setUint32(0, memory.byteLength, true);
  let place = NUMBER;
  for (const page of used) {
    numbers.setUint32(place, page, true);
    image.set(memory.subarray(page * PAGE, (page + 1) * PAGE), place + NUMBER);
    place += NUMBER + PAGE;
  }
  return image;
}

/** Make `memory`, fresh from the same engine, what it was. False when it is of another size: then it is as before. */
export function takeUp(memory: Uint8Array, image: Uint8Array): boolean {
  const numbers = new DataView(image.buffer, image.byteOffset, image.byteLength);
  if (numbers.getUint32(0, true) !== memory.byteLength) return false;
  for (let place = NUMBER; place < image.byteLength; place += NUMBER + PAGE) {
    memory.set(image.subarray(place + NUMBER, place + NUMBER + PAGE), numbers.getUint32(place, true) * PAGE);
  }
  return true;
}
