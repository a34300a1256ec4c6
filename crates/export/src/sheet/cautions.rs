//! What can hurt, and what is done at the end.

/// Cautions that stand on every sheet.
pub(super) const CAUTIONS: [&str; 9] = [
    "The machine's manual, the material's and the glue's safety sheets, local rules and trained practice come before this sheet.",
    "Eyes, lungs and hearing first: glasses or a face shield, a mask fit for fine dust, extraction, ear protection.",
    "Many woods, resins, ebonite (it holds sulphur) and glues irritate or sensitise: read their sheets, keep dust and vapour off skin and out of lungs.",
    "Take the chuck key out before the spindle turns. Keep sleeves, hair, jewellery and gloves away from it. Bring the speed up from slow.",
    "Tap and die by hand with the spindle locked and the power off.",
    "Never run above what the lathe, chuck or collet is rated for.",
    "Hot drills grab: withdraw often, clear the chips, let them cool.",
    "Celluloid burns fiercely: sharp tools, no heat, no spark, no dust left lying.",
    "Casting under pressure only in vessels made and rated for it.",
];

/// The last steps, when all parts are made.
pub(super) const FINISHING: [&str; 6] = [
    "Wash all parts with mild soap; let them dry.",
    "Assemble dry and look: seams, alignment of pattern and clip.",
    "Set the nib and feed; check with a gauge in the cap that the nib stays clear.",
    "Leak test: fill with water, leave it nib down on paper for an hour, then nib up and capped.",
    "Fill with ink and write a page.",
    "Keep this sheet with its figures as made: the next one begins from it.",
];
