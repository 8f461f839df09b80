/** What a USB port can feed. */
import { requirePositive } from "./domain";

/** Voltage of a USB port before anything is negotiated, V. */
export const USB_VOLTAGE = 5;

/** A supply: V, A and W. */
export interface Supply {
  readonly volts: number;
  readonly amperes: number;
  readonly watts: number;
}

function supply(volts: number, amperes: number): Supply {
  return { volts, amperes, watts: volts * amperes };
}

/**
 * What each kind of port gives. Source: USB 2.0 (0.5 A), USB 3.0 (0.9 A), Battery Charging 1.2 (1.5 A), USB Type-C (3 A); the
 * specifications themselves read in secondary sources. A Type-C port may give as little as 0.5 or 0.9 A where its maker says so.
 */
export const USB_PORTS = {
  "usb-2": supply(USB_VOLTAGE, 0.5),
  "usb-3": supply(USB_VOLTAGE, 0.9),
  "usb-charging": supply(USB_VOLTAGE, 1.5),
  "usb-c": supply(USB_VOLTAGE, 3),
} as const;

/** Kind of a USB port, as far as power goes. */
export type UsbPort = keyof typeof USB_PORTS;

/** Current that a hub without a supply of its own takes for itself, A: one unit load (USB 2.0 §7.2.1, USB 3.0; recalled). */
const HUB_OWN_CURRENT = { "usb-2": 0.1, "usb-3": 0.15, "usb-charging": 0.1, "usb-c": 0.15 } as const satisfies Record<UsbPort, number>;

/**
 * What a hub without a supply of its own leaves for all devices on it together: the port's current less the hub's own.
 *
 * The specification allows each device on such a hub one unit load only; in practice the sum is what fails.
 *
 * @param port kind of the port that the hub hangs on
 * @returns V, A and W for all its devices. Source: USB 2.0 §7.2.1 (recalled)
 */
export function unpoweredHub(port: UsbPort): Supply {
  return supply(USB_VOLTAGE, USB_PORTS[port].amperes - HUB_OWN_CURRENT[port]);
}

/** Voltage levels of USB Power Delivery: offered by sources of more than the given watts; above 20 V recalled from PD 3.1. */
const DELIVERY_LEVELS = [
  { volts: 5, above: 0 },
  { volts: 9, above: 15 },
  { volts: 15, above: 27 },
  { volts: 20, above: 45 },
  { volts: 28, above: 100 },
  { volts: 36, above: 140 },
  { volts: 48, above: 180 },
] as const;

/**
 * What a USB Power Delivery source offers: at each voltage the lesser of its power and the cable's current.
 *
 * Up to 15 W 5 V only, to 27 W also 9 V, to 45 W 15 V, to 60 W 20 V, all at no more than 3 A; above that 20 V at up to 5 A, with
 * a cable marked for 5 A, and to 240 W 28, 36 and 48 V. Without such a cable nothing above 60 W is offered.
 *
 * @param watts printed power of the source, W, > 0
 * @param fiveAmpereCable the cable is marked for 5 A
 * @returns the offers, lowest voltage first. Source: USB Power Delivery power rules
 * @throws RangeError when the power ≤ 0
 */
export function powerDelivery(watts: number, fiveAmpereCable = false): readonly Supply[] {
  requirePositive("power of the source", watts);
  const usable = Math.min(watts, fiveAmpereCable ? 240 : 60);
  return DELIVERY_LEVELS.filter((level) => level.above === 0 || usable > level.above).map(({ volts }) =>
    supply(volts, Math.min(usable / volts, volts >= 20 && fiveAmpereCable ? 5 : 3)),
  );
}

/**
 * The greatest power that a USB Power Delivery source gives through a cable.
 *
 * @param watts printed power of the source, W, > 0
 * @param fiveAmpereCable the cable is marked for 5 A
 * @returns W
 * @throws RangeError when the power ≤ 0
 */
export function deliveredPower(watts: number, fiveAmpereCable = false): number {
  return Math.max(...powerDelivery(watts, fiveAmpereCable).map((offer) => offer.watts));
}
