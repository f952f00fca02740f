// Puts each changed piece in its place while somebody reads. Without it the page is as it was when
// it was opened.
"use strict";
(() => {
    const path = document.body.dataset.page;
    const parser = new DOMParser();
    // Spread, so that a hall of readers does not come at the same moment.
    const soon = (seconds) => (0.2 + Math.random()) * seconds * 1000;
    const say = (words) => {
        const link = document.getElementById("link");
        if (link.textContent !== words) link.textContent = words;
    };

    const place = (id, html) => {
        const old = document.getElementById(id);
        const piece = parser.parseFromString(html, "text/html").body.firstElementChild;
        if (!old || !piece) return;
        const focus = old.contains(document.activeElement) ? document.activeElement : null;
        const href = focus ? focus.getAttribute("href") : null;
        old.replaceWith(piece);
        if (!focus) return;
        const again = href ? piece.querySelector(`a[href="${CSS.escape(href)}"]`) : piece;
        if (again) again.focus({ preventScroll: true });
    };

    // Taking the whole page anew: asked for until it has come. Pieces that come meanwhile are newer
    // than it, or as new, and are put into it again.
    let asking = false;
    let meanwhile = [];
    const anew = async () => {
        if (asking) return;
        asking = true;
        for (let seconds = 1.5; ; seconds = Math.min(seconds * 2, 30)) {
            await new Promise((wake) => setTimeout(wake, soon(seconds)));
            meanwhile = [];
            try {
                const answer = await fetch(path, { cache: "no-cache" });
                if (answer.status === 404) {
                    say("This page is no longer there.");
                    break;
                }
                if (!answer.ok) throw new Error(answer.statusText);
                const page = parser.parseFromString(await answer.text(), "text/html");
                document.querySelector("main").replaceWith(page.querySelector("main"));
                document.body.dataset.stamp = page.body.dataset.stamp;
                document.title = page.title;
                for (const piece of meanwhile) place(piece.id, piece.html);
                say("Kept up to date.");
                break;
            } catch {
                say("This page could not be taken anew; what you see may be old. Trying again.");
            }
        }
        asking = false;
        meanwhile = [];
    };

    // A line that was refused is not opened again by the browser itself.
    const open = () => {
        const stamp = document.body.dataset.stamp;
        const news = new EventSource(`news?page=${encodeURIComponent(path)}&stamp=${stamp}`);
        news.onopen = () => say("Kept up to date.");
        news.onerror = () => {
            say("No connection; what you see may be old. Trying again.");
            if (news.readyState === EventSource.CLOSED) setTimeout(open, soon(5));
        };
        news.addEventListener("piece", (event) => {
            const piece = JSON.parse(event.data);
            if (asking) meanwhile.push(piece);
            place(piece.id, piece.html);
        });
        news.addEventListener("anew", anew);
    };
    open();
})();
