//! The week's page in a real browser at phone and desk width: nothing runs over the screen's edge, by
//! what the browser lays out and by what it paints.
//!
//! A browser is a system package: without `LONGPOINT_BROWSER` (its command, set in continuous
//! integration) this is left out with a note.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::made;
use longpoint::report::page::page;
use tiny_skia::Pixmap;

/// A phone's width and a desk's.
const WIDTHS: [u32; 2] = [390, 1280];
/// Height of one screenshot, pixels.
const SHOT: u32 = 12_000;
/// What stays blank at the right at those widths, pixels: the page's padding, on a desk with the room
/// beside its 1120, less a hair.
const MARGINS: [u32; 2] = [8, 90];
/// The least of three colour channels that still counts as paper.
const PAPER: u8 = 200;

/// A browser with a folder of its own to work in, both gone when the test ends.
struct Browser {
    command: String,
    folder: PathBuf,
}

impl Browser {
    /// `None`, with a note, where none is named.
    fn named(test: &str) -> Option<Browser> {
        let Ok(command) = std::env::var("LONGPOINT_BROWSER") else {
            eprintln!("left out: LONGPOINT_BROWSER names no browser");
            return None;
        };
        let name = format!("longpoint-browser-{test}-{}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        std::fs::create_dir_all(&folder).expect("a folder");
        Some(Browser { command, folder })
    }

    fn write(&self, name: &str, text: &str) -> PathBuf {
        let file = self.folder.join(name);
        std::fs::write(&file, text).expect("written");
        file
    }

    /// Runs it on a file; gives back what it prints.
    fn open(&self, file: &Path, arguments: &[String]) -> String {
        let home = self.folder.join("home");
        let out = Command::new(&self.command)
            .args(["--headless", "--no-sandbox", "--disable-gpu"])
            .args(["--hide-scrollbars", "--allow-file-access-from-files"])
            .args([
                "--virtual-time-budget=20000",
                "--force-device-scale-factor=1",
            ])
            .args(arguments)
            .arg(format!("--user-data-dir={}", home.display()))
            .arg(format!("file://{}", file.display()))
            .output()
            .unwrap_or_else(|e| panic!("{}: {e}", self.command));
        String::from_utf8_lossy(&out.stdout).into_owned()
    }

    /// What it lays out of `week.html` in frames of the widths.
    fn layout(&self) -> Vec<Frame> {
        let file = self.write("harness.html", &harness());
        let dom = self.open(&file, &["--dump-dom".to_owned()]);
        let told = dom
            .split("TOLD ")
            .nth(1)
            .and_then(|t| t.split(" END").next())
            .unwrap_or_else(|| panic!("the page did not load: {dom}"));
        let frames: Vec<Frame> = told.split(';').map(Frame::read).collect();
        assert_eq!(frames.len(), WIDTHS.len(), "{told}");
        frames
    }

    /// A picture of `week.html` laid out `wide`, from `top` down.
    fn picture(&self, wide: u32, high: u32, top: u32) -> Pixmap {
        let frame = format!(
            "<!doctype html><style>body{{margin:0;overflow:hidden}}iframe{{border:0;display:block;\
             width:{wide}px;height:{high}px;margin-top:-{top}px}}</style>\
             <iframe src=\"week.html\"></iframe>"
        );
        let file = self.write("shot.html", &frame);
        let picture = self.folder.join("shot.png");
        let _ = std::fs::remove_file(&picture);
        // A window no narrower than any browser allows: the frame holds the width.
        let window = format!("--window-size={},{SHOT}", wide.max(600));
        self.open(
            &file,
            &[window, format!("--screenshot={}", picture.display())],
        );
        let bytes = std::fs::read(&picture).expect("a screenshot");
        Pixmap::decode_png(&bytes).expect("a PNG")
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// What one frame tells of the page in it.
#[derive(Debug)]
struct Frame {
    width: u32,
    client: u32,
    scroll: u32,
    height: u32,
    /// Elements outside scrolling drawings that reach past the right edge.
    over: u32,
    drawings: u32,
}

impl Frame {
    fn read(words: &str) -> Frame {
        let numbers: Vec<u32> = words
            .split(' ')
            .map(|n| n.parse().expect("a number"))
            .collect();
        let [width, client, scroll, height, over, drawings] = numbers[..] else {
            panic!("{words}");
        };
        Frame {
            width,
            client,
            scroll,
            height,
            over,
            drawings,
        }
    }
}

/// Opens the page in frames of the widths and writes what each tells.
fn harness() -> String {
    let frame = |w: &u32| {
        format!(
            "<iframe src=\"week.html\" width=\"{w}\" height=\"900\" style=\"border:0\"></iframe>"
        )
    };
    let frames: Vec<String> = WIDTHS.iter().map(frame).collect();
    format!(
        "<!doctype html><pre id=\"out\"></pre>{}<script>
window.onload = function () {{
  var told = [];
  document.querySelectorAll('iframe').forEach(function (frame) {{
    var page = frame.contentDocument, root = page.documentElement, wide = root.clientWidth, over = 0;
    page.querySelectorAll('body *').forEach(function (e) {{
      if (!e.closest('.drawing') && e.getBoundingClientRect().right > wide + 0.5) over += 1;
    }});
    told.push([frame.width, wide, root.scrollWidth, root.scrollHeight, over,
      page.querySelectorAll('svg').length].join(' '));
  }});
  document.getElementById('out').textContent = 'TOLD ' + told.join(';') + ' END';
}};
</script>",
        frames.concat()
    )
}

/// Inked pixels between two columns, `from` counted and `to` not.
fn inked(picture: &Pixmap, from: u32, to: u32) -> usize {
    let dark = |x: u32, y: u32| {
        let p = picture.pixel(x, y).expect("a pixel of the picture");
        p.red().min(p.green()).min(p.blue()) < PAPER
    };
    let column = |x: u32| (0..picture.height()).filter(|y| dark(x, *y)).count();
    (from..to).map(column).sum()
}

#[test]
fn nothing_is_laid_out_over_the_edge_at_390_and_at_1280() {
    let Some(browser) = Browser::named("layout") else {
        return;
    };
    for (week, drawings) in [("demo_us", 90), ("demo_metric", 60), ("demo_small", 40)] {
        browser.write("week.html", &page(&made::checked(&made::demo(week))));
        for (frame, width) in browser.layout().iter().zip(WIDTHS) {
            assert_eq!(frame.width, width, "{week}");
            let wide = (frame.client, frame.scroll);
            assert_eq!(wide, (width, width), "{week}: page width, {frame:?}");
            assert_eq!(frame.over, 0, "{week}: elements over the edge at {width}");
            assert!(frame.drawings > drawings, "{week}: {frame:?}");
        }
    }
}

#[test]
fn screenshots_at_390_and_at_1280_are_blank_along_the_right_edge() {
    let Some(browser) = Browser::named("shots") else {
        return;
    };
    let html = page(&made::checked(&made::demo("demo_us")));
    browser.write("week.html", &html);
    for (frame, margin) in browser.layout().iter().zip(MARGINS) {
        let (wide, high) = (frame.width, frame.height);
        assert!(high > SHOT, "the week is long: {high} at {wide}");
        for top in (0..high).step_by(SHOT as usize) {
            let picture = browser.picture(wide, high, top);
            assert!(picture.width() >= wide && picture.height() == SHOT);
            let at = format!("{wide} wide, from {top} of {high}");
            assert!(inked(&picture, 0, wide - margin) > 1000, "a page: {at}");
            assert_eq!(inked(&picture, wide - margin, wide), 0, "{at}");
        }
    }
    // A line that does run over the edge is seen.
    let spoiled = html.replace(
        "<header>",
        "<header><p style=\"white-space:nowrap;width:9000px;background:#000\">over</p>",
    );
    assert_ne!(spoiled, html);
    browser.write("week.html", &spoiled);
    for (frame, margin) in browser.layout().iter().zip(MARGINS) {
        let wide = frame.width;
        assert!(frame.over > 0 && frame.scroll > wide, "{frame:?}");
        let picture = browser.picture(wide, SHOT, 0);
        assert!(inked(&picture, wide - margin, wide) > 0, "{wide}");
    }
}
