import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { airtime, sharedRate } from "../../server/physics/airtime";
import { contentRate } from "../../server/physics/contentRate";
import { grossAudioRate, grossVideoRate, VIDEO_PAYLOAD } from "../../server/physics/packets";
import { pictureLayers, tileSize } from "../../server/physics/pictureLayers";
import { videoRate, type VideoCodec } from "../../server/physics/videoRate";

/** An IP packet with UDP, RTP and the tag of SRTP around a payload, byte by byte: RFC 791, RFC 8200, RFC 768, RFC 3550 section 5.1, RFC 3711. */
function packet(ip: 4 | 6, sequence: number, timestamp: number, payload: Uint8Array): Uint8Array {
  const rtp = new DataView(new ArrayBuffer(12));
  rtp.setUint8(0, 2 << 6);            // version 2, no padding, no extension, no contributing sources
  rtp.setUint8(1, 111);               // no marker, a dynamic payload type
  rtp.setUint16(2, sequence & 0xffff);
  rtp.setUint32(4, timestamp >>> 0);
  rtp.setUint32(8, 0x1234abcd);       // synchronisation source
  const tag = new Uint8Array(80 / 8); // authentication tag of 80 bits
  const inside = 8 + rtp.byteLength + payload.length + tag.length;
  const udp = new DataView(new ArrayBuffer(8));
  udp.setUint16(0, 40_000);
  udp.setUint16(2, 50_000);
  udp.setUint16(4, inside);
  const head = new DataView(new ArrayBuffer(ip === 4 ? 20 : 40));
  head.setUint8(0, (ip << 4) | (ip === 4 ? 5 : 0)); // IPv4: header of five words
  if (ip === 4) {
    head.setUint16(2, 20 + inside);
    head.setUint8(8, 64);
    head.setUint8(9, 17);             // UDP
  } else {
    head.setUint16(4, inside);
    head.setUint8(6, 17);
    head.setUint8(7, 64);
  }
  return Uint8Array.from([...new Uint8Array(head.buffer), ...new Uint8Array(udp.buffer), ...new Uint8Array(rtp.buffer), ...payload, ...tag]);
}

/** Bits on the wire of packets, and what their own length fields say. */
function onTheWire(packets: readonly Uint8Array[]): number {
  for (const one of packets) {
    const view = new DataView(one.buffer);
    const version = view.getUint8(0) >> 4;
    expect(version === 4 ? view.getUint16(2) : view.getUint16(4) + 40).toBe(one.length);
    expect(view.getUint8(version === 4 ? 20 + 8 : 40 + 8) >> 6).toBe(2);
  }
  return packets.reduce((sum, one) => sum + one.length * 8, 0);
}

describe("packets built byte by byte take what the arithmetic says", () => {
  test.each([[4, 0.02, 32_000], [6, 0.02, 32_000], [4, 0.04, 20_000], [6, 0.06, 12_000], [4, 0.01, 64_000]] as const)("sound over IPv%d, a packet every %d s, %d bit/s coded", (ip, interval, rate) => {
    const seconds = 6;
    const count = Math.round(seconds / interval);
    const packets = Array.from({ length: count }, (_, i) => packet(ip, i, i * 48_000 * interval, new Uint8Array((rate * interval) / 8)));
    expect(onTheWire(packets) / seconds).toBeCloseTo(grossAudioRate(rate, interval, { ip }), 6);
  });
  test.each([[4], [6]] as const)("a picture in full packets over IPv%d", (ip) => {
    const packets = Array.from({ length: 500 }, (_, i) => packet(ip, i, i * 3000, new Uint8Array(VIDEO_PAYLOAD)));
    expect(packets[0]?.length).toBe((ip === 4 ? 20 : 40) + 8 + 1200);
    expect(onTheWire(packets)).toBeCloseTo(grossVideoRate(500 * VIDEO_PAYLOAD * 8, VIDEO_PAYLOAD, { ip }), 6);
  });
  test("a picture frame by frame, each frame's last packet not full, takes more by at most one packet's overhead a frame", () => {
    const [rate, frames] = [500_000, 30];
    const bytes = rate / 8 / frames;
    const packets = Array.from({ length: frames }, (_, frame) => {
      const sizes: number[] = [];
      for (let left = Math.round(bytes); left > 0; left -= VIDEO_PAYLOAD) sizes.push(Math.min(left, VIDEO_PAYLOAD));
      return sizes.map((size, i) => packet(4, frame * 10 + i, frame * 3000, new Uint8Array(size)));
    }).flat();
    const sent = onTheWire(packets);
    const arithmetic = grossVideoRate(rate);
    expect(sent).toBeGreaterThan(arithmetic - frames * 8);
    expect(sent).toBeLessThan(arithmetic + frames * 50 * 8 + frames * 8);
  });
});

const TABLE = "open-source WebRTC implementation";
describe("layers and content", () => {
  test.each<[VideoCodec, number, number, number[]]>([["vp8", 1280, 720, [720, 360, 180]], ["vp9", 960, 540, [540, 270, 135]], ["h264", 640, 360, [360, 180]], ["av1", 480, 270, [270, 135]], ["vp8", 320, 180, [180]]])(
    `${TABLE}, simulcast table: %s %dx%d is sent in %j lines`, (codec, width, height, lines) => {
      const layers = pictureLayers(codec, width, height);
      expect(layers.map((layer) => layer.height)).toEqual(lines);
      // The highest at up to its maximum, those below at their target.
      expect(layers.map((layer) => layer.maximum)).toEqual(layers.map((layer, i) => videoRate(codec, layer.width * layer.height)[i === 0 ? "maximum" : "target"]));
    });
  test(`${TABLE}: 720p in three layers of VP8 takes 2500 + 500 + 150 kbit/s, and 30 at least for the lowest`, () => {
    const layers = pictureLayers("vp8", 1280, 720);
    expect(layers.map((layer) => layer.target / 1000)).toEqual([2500, 500, 150]);
    expect(layers.map((layer) => layer.minimum / 1000)).toEqual([600, 150, 30]);
  });
  test(`${TABLE}, layers of a shared screen: 200 kbit/s low, 600 to 1250 high`, () => {
    expect(contentRate("still")).toEqual({ minimum: 200_000, target: 600_000, maximum: 1_250_000 });
    expect(contentRate("moving", "vp9")).toEqual(videoRate("vp9", 1280 * 720));
  });
  test.each([[1, 720, 2.5], [9, 360, 4.5], [25, 180, 3.75]])("computed from the table: %d faces are received at %d lines and take %d Mb/s", (faces, lines, rate) => {
    const tile = tileSize(faces);
    expect(tile.height).toBe(lines);
    expect((faces * videoRate("vp8", tile.width * tile.height).target) / 1e6).toBeCloseTo(rate, 6);
  });
});

describe("a shared radio channel", () => {
  test("computed: stations at 54 and 6 Mb/s get 5.4 Mb/s each", () => expect(sharedRate([54e6, 6e6]) / 1e6).toBeCloseTo(5.4, 6));
  test("a list of wireless practice (2011): beside one at 1 Mb/s, one at 300 Mb/s gets about 0.85 Mb/s; without headers 0.997", () => {
    expect(sharedRate([1e6, 300e6]) / 1e6).toBeCloseTo(0.997, 3);
    expect(sharedRate([1e6, 300e6]) / 1e6).toBeGreaterThan(0.85);
  });
  test("all at their share fill the time, and never more than the slowest has", () => {
    const rates = fc.array(fc.double({ min: 1e5, max: 1e9, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(fc.property(rates, (all) => {
      const each = sharedRate(all);
      expect(each).toBeLessThanOrEqual(Math.min(...all) * (1 + 1e-12));
      expect(airtime(all.map((rate) => ({ load: each, rate })))).toBeCloseTo(1, 9);
    }));
    expect(() => sharedRate([])).toThrow(/station/);
    expect(() => airtime([{ load: 1, rate: 0 }])).toThrow(/rate/);
  });
});
