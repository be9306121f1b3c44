//! The week's page in a real browser at phone and desk width: nothing runs over the screen's edge.
//!
//! A browser is a system package: without `LONGPOINT_BROWSER` (its command, set in continuous
//! integration) this is left out with a note.

mod made;

use std::path::Path;
use std::process::Command;

use longpoint::report::page::page;

/// Opens the page in frames of these widths and tells, per frame: its width, the page's width, and
/// how many elements outside scrolling drawings reach past the right edge.
fn harness(widths: &[u32]) -> String {
    let frames: Vec<String> = widths
        .iter()
        .map(|w| format!("<iframe src=\"week.html\" width=\"{w}\" height=\"900\" style=\"border:0\"></iframe>"))
        .collect();
    format!(
        "<!doctype html><pre id=\"out\"></pre>{}<script>
window.onload = function () {{
  var told = [];
  document.querySelectorAll('iframe').forEach(function (frame) {{
    var page = frame.contentDocument, wide = page.documentElement.clientWidth, over = [];
    page.querySelectorAll('body *').forEach(function (e) {{
      if (!e.closest('.drawing') && e.getBoundingClientRect().right > wide + 0.5) over.push(e.tagName);
    }});
    told.push(frame.width + ' ' + wide + ' ' + page.documentElement.scrollWidth + ' ' + over.length + ' ' + page.querySelectorAll('svg').length);
  }});
  document.getElementById('out').textContent = 'TOLD ' + told.join(';') + ' END';
}};
</script>",
        frames.concat()
    )
}

fn dump(browser: &str, file: &Path, home: &Path) -> String {
    let out = Command::new(browser)
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--hide-scrollbars",
        ])
        .args([
            "--allow-file-access-from-files",
            "--virtual-time-budget=20000",
            "--dump-dom",
        ])
        .arg(format!("--user-data-dir={}", home.display()))
        .arg(format!("file://{}", file.display()))
        .output()
        .unwrap_or_else(|e| panic!("{browser}: {e}"));
    String::from_utf8_lossy(&out.stdout).into_owned()
}

#[test]
fn nothing_runs_over_the_edge_at_390_and_at_1280() {
    let Ok(browser) = std::env::var("LONGPOINT_BROWSER") else {
        eprintln!("left out: LONGPOINT_BROWSER names no browser");
        return;
    };
    let plan = made::checked(&made::demo("demo_us"));
    let folder = std::env::temp_dir().join(format!("longpoint-browser-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("week.html"), page(&plan)).expect("written");
    let file = folder.join("harness.html");
    std::fs::write(&file, harness(&[390, 1280])).expect("written");
    let dom = dump(&browser, &file, &folder.join("home"));
    let _ = std::fs::remove_dir_all(&folder);
    let told = dom
        .split("TOLD ")
        .nth(1)
        .and_then(|t| t.split(" END").next())
        .unwrap_or_else(|| panic!("the page did not load: {dom}"));
    let frames: Vec<&str> = told.split(';').collect();
    assert_eq!(frames.len(), 2, "{told}");
    for frame in frames {
        let numbers: Vec<u32> = frame
            .split(' ')
            .map(|n| n.parse().expect("a number"))
            .collect();
        let [width, client, scroll, over, drawings] = numbers[..] else {
            panic!("{told}");
        };
        assert_eq!((client, scroll), (width, width), "page width, {told}");
        assert_eq!(over, 0, "elements over the edge at {width}");
        assert!(drawings > 90, "{drawings} drawings at {width}");
    }
}
