import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { energyOfCharge, runtime } from "../../server/physics/battery";
import type { UsbPort } from "../../server/physics/busPower";
import { deliveredPower, powerDelivery, unpoweredHub, USB_PORTS } from "../../server/physics/busPower";
import { ratedPower } from "../../server/physics/mains";

describe("USB", () => {
  test.each<[string, UsbPort, number, number]>([
    ["USB 2.0", "usb-2", 0.5, 2.5], ["USB 3.0", "usb-3", 0.9, 4.5],
    ["USB Battery Charging 1.2", "usb-charging", 1.5, 7.5], ["USB Type-C", "usb-c", 3, 15],
  ])("%s: %s gives %f A, %f W", (_source, port, amperes, watts) => {
    expect(USB_PORTS[port].amperes).toBe(amperes);
    expect(USB_PORTS[port].watts).toBeCloseTo(watts, 9);
  });
  test("USB Power Delivery power rules: a 50 W source gives 3 A at 5, 9 and 15 V and 2.5 A at 20 V", () => {
    expect(powerDelivery(50).map(({ volts, amperes }) => [volts, amperes])).toEqual([[5, 3], [9, 3], [15, 3], [20, 2.5]]);
  });
  test.each([[15, [5]], [27, [5, 9]], [45, [5, 9, 15]], [60, [5, 9, 15, 20]]])(
    "USB Power Delivery power rules: a %d W source offers %j V at 3 A at most", (watts, volts) => {
      const offers = powerDelivery(watts);
      expect(offers.map((offer) => offer.volts)).toEqual(volts);
      expect(Math.max(...offers.map((offer) => offer.amperes))).toBe(3);
      expect(deliveredPower(watts)).toBeCloseTo(watts, 9);
    },
  );
  test("USB Power Delivery power rules: 100 W is 20 V at 5 A, with a 5 A cable only", () => {
    expect(powerDelivery(100, true).at(-1)).toEqual({ volts: 20, amperes: 5, watts: 100 });
    expect(deliveredPower(100, false)).toBe(60);
  });
  test.each([[140, 28], [180, 36]])("USB Power Delivery 3.1, recalled: %d W is %d V at 5 A, and no higher voltage", (watts, volts) => {
    expect(powerDelivery(watts, true).at(-1)).toEqual({ volts, amperes: 5, watts });
    expect(powerDelivery(watts + 1, true).at(-1)?.volts).toBeGreaterThan(volts);
  });
  test("USB Power Delivery 3.1: 240 W is 48 V at 5 A", () => {
    expect(powerDelivery(240, true).at(-1)).toEqual({ volts: 48, amperes: 5, watts: 240 });
  });
  test("USB 2.0 §7.2.1, recalled: a hub without a supply leaves 0.4 A of a USB 2.0 port", () => {
    expect(unpoweredHub("usb-2").amperes).toBeCloseTo(0.4, 9);
    expect(unpoweredHub("usb-2").watts).toBeCloseTo(2, 9);
  });
  test("no source delivers more than is printed on it, and a larger one no less", () => {
    const watts = fc.double({ min: 1, max: 400, noNaN: true });
    fc.assert(fc.property(watts, watts, fc.boolean(), (one, other, cable) => {
      expect(deliveredPower(one, cable)).toBeLessThanOrEqual(one + 1e-9);
      expect(deliveredPower(Math.max(one, other), cable)).toBeGreaterThanOrEqual(deliveredPower(Math.min(one, other), cable) - 1e-9);
    }));
  });
});

describe("batteries", () => {
  const WATT_HOUR = 3600;
  test("common practice, no source: 1000 Wh at 85 % feed 100 W for 8.5 h", () => {
    expect(runtime(1000 * WATT_HOUR, 100, 0.85) / 3600).toBeCloseTo(8.5, 9);
  });
  test("common practice, no source: with 10 % kept back, for 7.65 h", () => {
    expect(runtime(1000 * WATT_HOUR, 100, 0.85, 0.1) / 3600).toBeCloseTo(7.65, 9);
  });
  test("common practice, no source: 1024 Wh at 85 %, 10 % kept back, feed 60 W for 13 h 3 min", () => {
    expect(Math.floor(runtime(1024 * WATT_HOUR, 60, 0.85, 0.1) / 60)).toBe(13 * 60 + 3);
  });
  test("computed: 10 000 mAh at 3.7 V are 37 Wh", () => {
    expect(energyOfCharge(10_000 * 3.6) / WATT_HOUR).toBeCloseTo(37, 9);
  });
  test("without a load a battery lasts for ever; a share over 1 is refused", () => {
    expect(runtime(100, 0)).toBe(Infinity);
    expect(() => runtime(100, 1, 1.2)).toThrow(/efficiency/);
    expect(() => runtime(100, 1, 1, 1.1)).toThrow(/reserve/);
    expect(() => runtime(-1, 1)).toThrow(/energy/);
  });
  test("a greater load never lasts longer", () => {
    const watts = fc.double({ min: 0, max: 1000, noNaN: true });
    fc.assert(fc.property(watts, watts, (one, other) => {
      expect(runtime(1e6, Math.max(one, other), 0.8, 0.1)).toBeLessThanOrEqual(runtime(1e6, Math.min(one, other), 0.8, 0.1) * (1 + 1e-12));
    }));
  });
});

describe("mains", () => {
  test.each([[15, 1440], [20, 1920]])("NEC 210.20(A): a %d A circuit at 120 V carries %d W for three hours or more", (amperes, watts) => {
    expect(ratedPower(amperes, 120, true)).toBeCloseTo(watts, 9);
  });
  test.each([[10, 2300], [13, 2990], [16, 3680]])("computed: %d A at 230 V is %d W", (amperes, watts) => {
    expect(ratedPower(amperes, 230)).toBe(watts);
    expect(() => ratedPower(0, 230)).toThrow(/current rating/);
  });
});
