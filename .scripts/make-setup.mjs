// Setups of stated content for the bench, the same on every run. All names are invented.

/** A setup of about `lines` lines; at 1,000: 250 seats, 40 devices, 60 cables, 8 items of the programme, one mixer, two joins. */
export function makeSetup(lines) {
  const scale = lines / 1000;
  const count = (n) => Math.max(1, Math.round(n * scale));
  const out = [
    "bothways 1", 'setup "Measured evening"', "room great-hall 24 m by 15 m by 6 m {", "  noise 36 dBA", "  reverberation 1.1 s guessed",
    `  chairs ${Math.min(5000, count(250))} in ${Math.min(100, count(10))} rows { first 4 m, pitch 0.9 m }`, "  outlet stage-box at left, sockets 400", "  outlet back-box at back, sockets 400", "}",
    "meeting { date 2026-10-14, access 17:00, start 18:30, end 21:30, online 30 people }",
    "internet venue { up 40 Mb/s measured 2026-10-07 18:40, wired }",
    "device laptop is laptop", "device second is laptop", "place laptop at operator", "place second at operator", "mains from back-box to laptop", "mains from back-box to second",
  ];
  const mics = count(20);
  const loudspeakers = Math.max(1, count(6));
  out.push(`device desk is mixer { ports in 1 to ${mics} is xlr, takes sound, phantom }`, "place desk at operator", "mains from back-box to desk", "cable from desk.usb to laptop.usb-1");
  out.push(`devices mic 1 to ${mics} is gooseneck-microphone`);
  for (let i = 1; i <= mics; i += 1) out.push(`talker speaker-${i} at (${(1 + (i % 3)).toFixed(1)} m, ${(1 + (i % 13)).toFixed(1)} m)`, `place mic-${i} at (${(1.2 + (i % 3)).toFixed(1)} m, ${(1 + (i % 13)).toFixed(1)} m)`, `cable from mic-${i}.plug to desk.in-${i}, length 20 m`);
  for (let i = 1; i <= loudspeakers; i += 1) out.push(`device tower-${i} is column-loudspeaker`, `place tower-${i} at (${(2 + i).toFixed(1)} m, ${i % 2 === 0 ? 1 : 14} m), aim audience`, `cable from desk.main-left to tower-${i}.line`, `mains from stage-box to tower-${i}`);
  const rest = count(12);
  for (let i = 1; i <= rest; i += 1) out.push(`device spare-${i} is battery-loudspeaker, owned by "the club"`, `place spare-${i} near back`, `cable from laptop.headset to spare-${i}.line`);
  out.push("programme {");
  for (let i = 0; i < 8; i += 1) out.push(`  item part-${i + 1} from ${18 + Math.floor((30 + i * 20) / 60)}:${String((30 + i * 20) % 60).padStart(2, "0")}, talkers speaker-${(i % mics) + 1}`);
  out.push("}", "join laptop over venue {", "  sends sound from desk", "  plays sound on desk", "  sends picture from laptop.camera at 720p30", "}", "join second {", "  sends no sound", "  plays no sound", "  sends picture from second.camera at 360p15", "}");
  for (let i = 0; out.length < lines - 1; i += 1) out.push(i % 2 === 0 ? `# line ${i}: what the caretaker said` : `note "Chairs of block ${i} go back to the store."`);
  return `${out.join("\n")}\n`;
}
