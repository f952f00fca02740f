// Puts each changed piece in its place while somebody reads. Without it the page is as it was when
// it was opened.
"use strict";
(() => {
    const path = document.body.dataset.page;
    const link = document.getElementById("link");
    const say = (words) => { if (link.textContent !== words) link.textContent = words; };
    const parser = new DOMParser();

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
    const anew = async () => {
        const answer = await fetch(path, { cache: "no-cache" });
        if (!answer.ok) return;
        const page = parser.parseFromString(await answer.text(), "text/html");
        document.querySelector("main").replaceWith(page.querySelector("main"));
        document.body.dataset.stamp = page.body.dataset.stamp;
        document.title = page.title;
    };

    const news = new EventSource(`news?page=${encodeURIComponent(path)}&stamp=${document.body.dataset.stamp}`);
    news.onopen = () => say("Kept up to date.");
    news.onerror = () => say("No connection; what you see may be old. Trying again.");
    news.addEventListener("piece", (event) => {
        const piece = JSON.parse(event.data);
        place(piece.id, piece.html);
    });
    // Spread, so that a hall of readers does not come at the same moment.
    news.addEventListener("anew", () => setTimeout(anew, Math.random() * 1500));
})();
