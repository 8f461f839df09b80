/** Packet overhead: what a stream takes on the wire beyond its own bits. */
import { requireNonNegative, requirePositive } from "./domain";

/** Bytes of an RTP header without extensions. Source: 3GPP TS 26.114, Annex K.2. */
export const RTP_HEADER = 12;

/** Bytes of a UDP header. Source: 3GPP TS 26.114, Annex K.2. */
export const UDP_HEADER = 8;

/** Bytes of an IP header by version. Source: 3GPP TS 26.114, Annex K.2. */
export const IP_HEADER = { 4: 20, 6: 40 } as const;

/** Bytes of the SRTP authentication tag of the default profile: 80 bits (RFC 3711, recalled). */
export const SRTP_TAG = 10;

/** Bytes of Ethernet header and check sequence around an IP packet. */
export const ETHERNET_FRAMING = 18;

/** Bytes that a full video packet of the open-source WebRTC implementation holds: RTP header, payload and SRTP tag. */
export const VIDEO_PACKET = 1200;

/** Bytes of payload in a full video packet. */
export const VIDEO_PAYLOAD = VIDEO_PACKET - RTP_HEADER - SRTP_TAG;

/** How packets are wrapped. */
export interface Wrapping {
  /** Version of the internet protocol; 4 when left out. */
  readonly ip?: 4 | 6;
  /** Encrypted (SRTP); true when left out, since calls in a browser always are. */
  readonly encrypted?: boolean;
  /** Bytes of the link's own framing; 0 when left out: speed tests count IP bytes or fewer. */
  readonly framing?: number;
}

/**
 * Bytes around the payload of one packet: RTP 12 + UDP 8 + IPv4 20 or IPv6 40 + SRTP tag 10 + framing.
 *
 * @param wrapping protocol version, encryption, framing
 * @returns bytes per packet. Source: 3GPP TS 26.114, Annex K.2
 */
export function packetOverhead(wrapping: Wrapping = {}): number {
  const tag = (wrapping.encrypted ?? true) ? SRTP_TAG : 0;
  return RTP_HEADER + UDP_HEADER + IP_HEADER[wrapping.ip ?? 4] + tag + (wrapping.framing ?? 0);
}

/**
 * Gross rate of a stream that sends a packet every so often, such as sound: rate + overhead·8/interval.
 *
 * @param rate payload rate, bit/s, ≥ 0
 * @param interval time between packets, s; calls use 0.02
 * @param wrapping protocol version, encryption, framing
 * @returns gross rate, bit/s
 * @throws RangeError when the rate is negative or the interval ≤ 0
 */
export function grossAudioRate(rate: number, interval = 0.02, wrapping: Wrapping = {}): number {
  requireNonNegative("rate", rate);
  requirePositive("packet interval", interval);
  return rate + (packetOverhead(wrapping) * 8) / interval;
}

/**
 * Gross rate of a stream that fills its packets, such as video: rate·(1 + overhead/payload).
 *
 * Every frame ends in a packet that is not full, so the true rate is higher by up to one packet's overhead for each frame.
 *
 * @param rate payload rate, bit/s, ≥ 0
 * @param payload bytes of payload in a packet, > 0
 * @param wrapping protocol version, encryption, framing
 * @returns gross rate, bit/s
 * @throws RangeError when the rate is negative or the payload ≤ 0
 */
export function grossVideoRate(rate: number, payload = VIDEO_PAYLOAD, wrapping: Wrapping = {}): number {
  requireNonNegative("rate", rate);
  requirePositive("payload", payload);
  return rate * (1 + packetOverhead(wrapping) / payload);
}
