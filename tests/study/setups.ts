/** Setups to vary in one thing at a time. Names are invented. */

/** Who sees to the call: left out where that is what is tried. */
export const SEEN_TO = "job run-call by Teo and Ute\njob chat by Ute\n";

/** A room and a talker stated well enough for nothing else to hang on them; `internet` and what follows are the test's own. */
export const hall = (rest: string, internet = "internet venue { up 20 Mb/s measured 2026-10-07 18:40, wired }\ninternet spare { up 8 Mb/s measured 2026-10-07 18:40 }\nfallback spare for venue"): string => `setup "One thing at a time"
room hall 9.2 m by 6.4 m by 3.1 m {
  noise 38 dBA
  reverberation 0.8 s
  chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m, spacing 0.55 m }
  light 30 lx on screen
  light 200 lx on faces
  screen wall at front, width 2.4 m, lower-edge 1.7 m
  outlet left-wall at left, sockets 4
  outlet back-wall at back, sockets 4
}
talker Ines at (1.0 m, 3.2 m), standing
online 4 people
job listen by Marit
${SEEN_TO}visitors none
${internet}
place laptop is laptop, at (1.2 m, 2.4 m), aim Ines
mains from left-wall to laptop
${rest}`;

export const BOX = `place box is battery-loudspeaker, at (0.6 m, 4.8 m), aim audience { port bluetooth is bluetooth, takes sound, delay 100 ms }
radio from laptop.bluetooth to box.bluetooth
`;
export const LAPEL = `place lapel is lapel-microphone, on Ines
cable from lapel.plug to laptop.headset
`;
export const BEAMER = `place beamer is projector, at back, height 2.8 m, fills wall
cable from laptop.hdmi to beamer.hdmi
mains from back-wall to beamer
`;
export const JOIN = "join laptop { sends sound from lapel, plays sound on box, shows call on laptop.screen, shows call on beamer }\n";
/** Everything in order but for the hint that one computer carries it all. */
export const IN_ORDER = BOX + LAPEL + BEAMER + JOIN;
