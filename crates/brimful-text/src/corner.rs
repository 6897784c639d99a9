//! How runs meet at corners, and how a run is stopped and taken up again, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::weld::corner::{Corner, Restart, ShortRun, Way};
use brimful_tank::plan::Plan;

impl Words<'_> {
    /// A corner by the marks of its panels.
    fn corner_place(&self, corner: &Corner, plan: &Plan) -> Text {
        let panels = corner.panels.iter().filter_map(|&it| plan.panels.get(it));
        Text::join(panels.map(|it| self.given(&it.mark)), " / ")
    }

    /// Its runs in the order in which they are laid.
    fn corner_passes(&self, corner: &Corner, plan: &Plan) -> Text {
        let each = corner.passes.iter().map(|pass| {
            let seam = plan.seams.get(pass.seam);
            let seam = seam.map_or_else(Text::default, |it| self.given(&it.mark));
            let way = self.corner_way(pass.way);
            match pass.taken_up {
                None if pass.way == Way::PastTheEdge => {
                    say!(self, "{seam} {way}", seam = seam, way = way)
                }
                Some(far) => say!(
                    self,
                    "{seam} {way}, taken up at {far}",
                    seam = seam,
                    way = way,
                    far = self.length(far)
                ),
                None => say!(
                    self,
                    "{seam} {way}, all of it in one short run",
                    seam = seam,
                    way = way
                ),
            }
        });
        Text::join(each, "; ")
    }

    /// What is different at a corner.
    fn corner_note(&self, corner: &Corner, plan: &Plan) -> Option<Text> {
        let panel = corner.stop_hole.and_then(|it| plan.panels.get(it));
        if corner.is_crossing() {
            return Some(say!(
                self,
                "{runs} runs cross here: see the findings. Lay each cold and cut back before the next.",
                runs = corner.passes.len()
            ));
        }
        match (corner.is_re_entrant, panel) {
            (true, Some(panel)) => Some(say!(
                self,
                "Inside corner of the body: the run through it also fills the stop hole of {panel}.",
                panel = self.given(&panel.mark)
            )),
            (true, None) => Some(say!(self, "Inside corner of the body.")),
            _ => None,
        }
    }

    /// A corner in a sentence.
    pub fn corner(&self, corner: &Corner, plan: &Plan) -> Text {
        let place = self.corner_place(corner, plan);
        let passes = self.corner_passes(corner, plan);
        let said = say!(
            self,
            "Corner of {place}: {passes}.",
            place = place,
            passes = passes
        );
        Text::join(
            [Some(said), self.corner_note(corner, plan)]
                .into_iter()
                .flatten(),
            " ",
        )
    }

    /// Corners in sentences, those that are alike together.
    pub fn corners_said<'c>(
        &self,
        corners: impl IntoIterator<Item = &'c Corner>,
        plan: &Plan,
    ) -> Vec<Text> {
        let mut alike: Vec<(Text, usize)> = Vec::new();
        for corner in corners {
            let said = self.corner(corner, plan);
            match alike.iter_mut().find(|(it, _)| *it == said) {
                Some((_, count)) => *count += 1,
                None => alike.push((said, 1)),
            }
        }
        let alike = alike.into_iter().map(|(said, count)| match count {
            1 => said,
            count => say!(
                self,
                "{corner} {count} such corners, one on either face of what stands there.",
                corner = said,
                count = count
            ),
        });
        alike.collect()
    }

    /// How a run passes a corner.
    fn corner_way(&self, way: Way) -> Text {
        match way {
            Way::PastTheEdge => say!(self, "past the edge, trimmed flush"),
            Way::Through => say!(self, "through the corner"),
            Way::Against => say!(self, "against the run through it"),
        }
    }

    /// How corners are welded.
    pub fn corner_rule(&self, restart: &Restart) -> Text {
        match restart.short_run {
            ShortRun::RoundNozzle => say!(
                self,
                "Corners come first: before the long runs of a seam, a short run with the round nozzle, rod in the other hand, goes through each corner without a stop, from the first seam into the second; the third is laid against it; each in as many layers as fill its groove. Then the long runs are taken up on the short ones, each further from the corner than the one before."
            ),
            ShortRun::SameNozzle => say!(
                self,
                "Corners come first: a short run goes through each corner without a stop, from the first seam into the second; the third is laid against it; each in as many layers as fill its groove. Then the long runs are taken up on the short ones, each further from the corner than the one before."
            ),
            ShortRun::None => say!(
                self,
                "One hand lays no short run through a corner: begin each long run in the corner, and stop it away from the next one, where the run from there is taken up. Look at these corners first in the leak test."
            ),
        }
    }

    /// How a corner is warmed.
    pub fn corner_preheat(&self) -> Text {
        say!(
            self,
            "Warm the corner before its run: three sheets carry the heat away. Swing the gun to and fro over all three faces until they shine, without stopping on any, then lay the run at once. Gloves: the faces stay hot."
        )
    }

    /// How a run is stopped and taken up again.
    pub fn restart_rule(&self, restart: &Restart) -> Text {
        let ([flat, steep], [least, most]) = (restart.wedge, restart.overlap);
        let rule = say!(
            self,
            "Stopping and taking up: let the end cool, cut it back to a slope of {flat} to {steep}, scrape it, warm it, and begin the new run {least} to {most} back on the old one. Starts of runs that lie side by side are {stagger} apart or more, and none is nearer to a corner than {far}.",
            flat = self.angle(flat),
            steep = self.angle(steep),
            least = self.length(least),
            most = self.length(most),
            stagger = self.length(restart.stagger),
            far = self.length(restart.from_corner)
        );
        let wall = (restart.from_wall > restart.from_corner).then(|| {
            say!(
                self,
                "Where a wall stands ahead the extruder gets no nearer than {far}.",
                far = self.length(restart.from_wall)
            )
        });
        Text::join([Some(rule), wall].into_iter().flatten(), " ")
    }

    /// Where those figures are from.
    pub fn restart_sources(&self) -> Text {
        self.rows_cited(&Restart::rows(self.job.shop.process))
    }
}
