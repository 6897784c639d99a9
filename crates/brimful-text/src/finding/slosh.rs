//! Liquid in motion, in words.

use super::said::Said;
use crate::words::Words;
use brimful_panels::finding::kind::SloshKind;

pub(super) fn said(words: &Words<'_>, kind: &SloshKind) -> Said {
    match kind {
        SloshKind::InBand {
            motion,
            fills,
            worst,
            frequency,
            moves,
        } => {
            let [low, high] = fills.map(|it| words.percent(it));
            let fills = if low == high {
                say!(words, "{fill} full", fill = low)
            } else {
                say!(
                    words,
                    "between {low} and {high} full",
                    low = low,
                    high = high
                )
            };
            Said::new(say!(
                words,
                "The liquid swings as fast as {motion} pushes it, {fills}. Worst at {worst} full: {share} of it swings once in {period} ({frequency}).",
                motion = words.motion(*motion),
                fills = fills,
                worst = words.percent(*worst),
                share = words.percent(*moves),
                period = words.swing_period(*frequency),
                frequency = words.frequency(*frequency)
            ))
            .cure(say!(
                words,
                "Run it full or nearly empty, or part it by baffles square to that motion: `{command}` shows what each of them does.",
                command = words.symbol("brimful slosh")
            ))
            .entry("[[inner]]")
        }
    }
}
