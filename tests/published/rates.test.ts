import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ETHERNET_FRAMING, grossAudioRate, grossVideoRate, packetOverhead, VIDEO_PAYLOAD,
} from "../../server/physics/packets";
import type { VideoCodec } from "../../server/physics/videoRate";
import { frameRateShare, opusRate, rawVideoRate, videoRate } from "../../server/physics/videoRate";

describe("packet overhead", () => {
  test("3GPP TS 26.114 Annex K.2: RTP 12 + UDP 8 + IPv4 20 or IPv6 40 bytes", () => {
    expect(packetOverhead({ ip: 4, encrypted: false })).toBe(40);
    expect(packetOverhead({ ip: 6, encrypted: false })).toBe(60);
  });
  test("RFC 3711, recalled: an authentication tag of 80 bits adds 10 bytes", () => {
    expect(packetOverhead()).toBe(50);
    expect(packetOverhead({ ip: 6 })).toBe(70);
  });
  test("common practice, no source: a G.711 call at 20 ms takes 87.2 kbit/s on Ethernet", () => {
    expect(grossAudioRate(64_000, 0.02, { encrypted: false, framing: ETHERNET_FRAMING })).toBeCloseTo(87_200, 6);
  });
  test("common practice, no source: 23 such calls take 2 005 600 bit/s", () => {
    expect(23 * grossAudioRate(64_000, 0.02, { encrypted: false, framing: ETHERNET_FRAMING })).toBeCloseTo(2_005_600, 6);
  });
  test("computed: the same call takes 80.0 kbit/s of IP", () => {
    expect(grossAudioRate(64_000, 0.02, { encrypted: false })).toBeCloseTo(80_000, 6);
  });
  test.each([[4, 52_000], [6, 60_000]] as const)("computed: Opus 32 kbit/s at 20 ms, encrypted, over IPv%d takes %d bit/s", (ip, rate) => {
    expect(grossAudioRate(32_000, 0.02, { ip })).toBeCloseTo(rate, 6);
  });
  test.each([[4, 2606], [6, 2649]] as const)("computed: 2500 kbit/s of video in 1178-byte payloads over IPv%d takes %d kbit/s", (ip, rate) => {
    expect(VIDEO_PAYLOAD).toBe(1178);
    expect(Math.round(grossVideoRate(2_500_000, VIDEO_PAYLOAD, { ip }) / 1000)).toBe(rate);
  });
  test("impossible packets are refused by name", () => {
    expect(() => grossAudioRate(32_000, 0)).toThrow(/packet interval/);
    expect(() => grossVideoRate(1000, 0)).toThrow(/payload/);
    expect(() => grossVideoRate(-1)).toThrow(/rate/);
  });
});

const TABLE = "open-source WebRTC implementation, simulcast table";

describe("video", () => {
  test.each<[VideoCodec, number, number, number, number, number]>([
    ["vp8", 1920, 1080, 5000, 4000, 800], ["h264", 1280, 720, 2500, 2500, 600], ["vp8", 960, 540, 1200, 1200, 350],
    ["h264", 640, 360, 700, 500, 150], ["vp8", 480, 270, 450, 350, 150], ["vp8", 320, 180, 200, 150, 30],
    ["vp9", 1920, 1080, 3367, 3367, 769], ["av1", 1280, 720, 1524, 1524, 481], ["h265", 960, 540, 879, 879, 337],
    ["vp9", 640, 360, 420, 420, 193], ["av1", 480, 270, 257, 257, 121], ["vp9", 320, 180, 142, 142, 30],
    ["vp9", 240, 135, 101, 101, 30],
  ])(`${TABLE}: %s %dx%d: %d / %d / %d kbit/s`, (codec, width, height, maximum, target, minimum) => {
    expect(videoRate(codec, width * height)).toEqual({
      maximum: maximum * 1000, target: target * 1000, minimum: minimum * 1000,
    });
  });
  test.each([[800, 450, 925, 815, 240], [1600, 900, 3625, 3175, 690]])(
    "computed: between the rows, vp8 %dx%d: %d / %d / %d kbit/s", (width, height, maximum, target, minimum) => {
      const rate = videoRate("vp8", width * height);
      expect(rate.maximum).toBeCloseTo(maximum * 1000, 3);
      expect(rate.target).toBeCloseTo(target * 1000, 3);
      expect(rate.minimum).toBeCloseTo(minimum * 1000, 3);
    },
  );
  test("computed: half-way by pixels between 240x135 and 320x180, vp9 takes 121.5 / 121.5 / 30 kbit/s", () => {
    const rate = videoRate("vp9", (240 * 135 + 320 * 180) / 2);
    expect(rate.maximum).toBeCloseTo(121_500, 3);
    expect(rate.target).toBeCloseTo(121_500, 3);
    expect(rate.minimum).toBeCloseTo(30_000, 3);
  });
  test("beyond both ends of the table the rate stays that of the end row", () => {
    expect(videoRate("vp8", 3840 * 2160)).toEqual(videoRate("vp8", 1920 * 1080));
    expect(videoRate("vp8", 160 * 90)).toEqual(videoRate("vp8", 320 * 180));
    expect(() => videoRate("vp8", 0)).toThrow(/pixels/);
    expect(() => videoRate("vp8", 100, 0)).toThrow(/frame rate/);
  });
  test("Ma, Xu, Ou and Wang 2012, exponent recalled: half the frames take two thirds of the rate", () => {
    expect(frameRateShare(15)).toBeCloseTo(0.66, 2);
    expect(frameRateShare(30)).toBe(1);
    expect(frameRateShare(60)).toBe(1);
    expect(videoRate("vp8", 1280 * 720, 15).target).toBeCloseTo(2_500_000 * frameRateShare(15), 3);
  });
  test("common practice, no source: a raw 640x480 picture in YUY2 at 30 frames takes 147.456 Mbit/s", () => {
    expect(rawVideoRate(640 * 480, 30)).toBe(147_456_000);
  });
  test("computed: raw 720p30 takes 442.368 and raw 1080p30 995.328 Mbit/s", () => {
    expect(rawVideoRate(1280 * 720, 30)).toBe(442_368_000);
    expect(rawVideoRate(1920 * 1080, 30)).toBe(995_328_000);
  });
});

describe("sound", () => {
  test("RFC 7587 §3.1.1: sweet spots 8–12, 16–20, 28–40, 48–64, 64–128 kbit/s", () => {
    const ends = (["narrow-band-speech", "wide-band-speech", "full-band-speech", "music", "music-stereo"] as const)
      .map((content) => [opusRate(content).minimum / 1000, opusRate(content).maximum / 1000]);
    expect(ends).toEqual([[8, 12], [16, 20], [28, 40], [48, 64], [64, 128]]);
  });
  test("open-source WebRTC implementation: speech by default at 12, 20, 32 kbit/s", () => {
    expect((["narrow-band-speech", "wide-band-speech", "full-band-speech"] as const).map((content) => opusRate(content).target))
      .toEqual([12_000, 20_000, 32_000]);
  });
});

describe("properties", () => {
  const codec = fc.constantFrom<VideoCodec>("vp8", "h264", "vp9", "av1", "h265");
  const pixels = fc.integer({ min: 1, max: 10_000_000 });
  const frames = fc.double({ min: 1, max: 120, noNaN: true });
  test("more pixels or more frames never take less, and minimum ≤ target ≤ maximum", () => {
    fc.assert(fc.property(codec, pixels, pixels, frames, frames, (which, one, other, slow, fast) => {
      const less = videoRate(which, Math.min(one, other), Math.min(slow, fast));
      const more = videoRate(which, Math.max(one, other), Math.max(slow, fast));
      for (const key of ["minimum", "target", "maximum"] as const) expect(more[key]).toBeGreaterThanOrEqual(less[key] - 1e-6);
      expect(less.minimum).toBeLessThanOrEqual(less.target);
      expect(less.target).toBeLessThanOrEqual(less.maximum);
    }));
  });
  test("a gross rate always exceeds the net rate", () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 1e8, noNaN: true }), (rate) => {
      expect(grossAudioRate(rate)).toBeGreaterThan(rate);
      expect(grossVideoRate(rate)).toBeGreaterThan(rate);
    }));
  });
});
