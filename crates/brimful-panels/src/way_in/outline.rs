//! The opening as it lies in its side of the space, for pictures.

use super::opening::placed;
use crate::space::Room;
use brimful_geom::vector::Point3;
use brimful_job::WayIn;

/// The corners of the opening in the axes of the space, the lower first: where the job says, else where
/// it is taken to be. None where the job does not say in which side it is.
pub fn outline(way_in: &WayIn, room: &Room) -> Option<[Point3; 4]> {
    let frame = placed(way_in, way_in.side?, room).frame;
    let [width, height] = way_in.size.map(|size| size.m() / 2.0);
    // Right and left are told by the space, not by who looks through.
    let along = if frame.x.to_array().iter().sum::<f64>() > 0.0 {
        frame.x
    } else {
        -frame.x
    };
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    Some(
        corners.map(|(right, over)| {
            frame.origin + along * (right * width) + frame.y * (over * height)
        }),
    )
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use brimful_job::Job;

    fn of(way_in: &str) -> Option<[[f64; 3]; 4]> {
        let text = format!(
            "[job]\nlengths = \"mm\"\n[space]\nbox = [1000, 500, 400]\n[space.way_in]\nwidth = 600\nheight = 300\nclearance = 10\n{way_in}\n[liquid]\nkind = \"water\"\n"
        );
        let space = Job::parse(&text).unwrap().space.unwrap();
        let room = Room::new(&space, None).unwrap();
        Some(outline(&space.way_in.unwrap(), &room)?.map(Point3::to_array))
    }

    #[test]
    fn it_lies_in_its_side_where_the_job_says() {
        let near = |outline: Option<[[f64; 3]; 4]>, low: [f64; 3], high: [f64; 3]| {
            let outline = outline.unwrap();
            let same = |a: [f64; 3], b: [f64; 3]| (0..3).all(|i| (a[i] - b[i]).abs() < 1e-12);
            assert!(
                same(outline[0], low) && same(outline[2], high),
                "{outline:?}"
            );
        };
        // By hand, in metres: on the far side at y = 0.5; on the top at z = 0.4.
        near(
            of("side = \"left\"\nat = [100, 50]"),
            [0.1, 0.5, 0.05],
            [0.7, 0.5, 0.35],
        );
        near(of("side = \"right\""), [0.2, 0.0, 0.0], [0.8, 0.0, 0.3]);
        near(of("side = \"above\""), [0.2, 0.1, 0.4], [0.8, 0.4, 0.4]);
        near(
            of("side = \"rear\"\nat = [-50, 0]"),
            [0.0, -0.05, 0.0],
            [0.0, 0.55, 0.3],
        );
        assert_eq!(of(""), None);
    }
}
