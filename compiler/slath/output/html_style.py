"""The look of the web page: system fonts, one column of readable width, colours that keep WCAG 2.2 AA contrast, light
or dark as the reader has it. Figures keep their paper.
"""

STYLE = """
:root{--ink:#231f1a;--accent:#7d3f21;--quiet:#5d554b;--rule:#b9ad9c;--tint:#f5f0e6;--paper:#fffdf9;--focus:#1c3f63}
@media screen and (prefers-color-scheme:dark){:root{--ink:#ece5d8;--accent:#e3a681;--quiet:#b9ae9f;--rule:#5f564a;--tint:#2b2620;--paper:#1b1815;--focus:#9cc4ec}
figure svg,figure img{background:#fffdf9;border-radius:.4rem;padding:.5rem}}
*{box-sizing:border-box}
html{font-size:112.5%;-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font-family:Georgia,'Source Serif 4',serif;line-height:1.55}
main,footer{max-width:44rem;margin:0 auto;padding:1rem 1.25rem}
h1,h2,h3,h4{font-weight:600;line-height:1.2;margin:2.2em 0 .6em}
h1{font-size:2.4rem;font-weight:400;margin:.2em 0}
h2{font-size:1.7rem;font-weight:400;border-bottom:2px solid var(--accent);padding-bottom:.2em}
h3{font-size:1.25rem}
h4{font-size:1.05rem;color:var(--accent)}
p,ul,ol,dl{margin:.6em 0}
a{color:var(--accent)}
a:focus-visible,input:focus-visible,summary:focus-visible,.table:focus-visible,textarea:focus-visible{outline:3px solid var(--focus);outline-offset:2px}
.skip{position:absolute;left:-999rem}
.skip:focus{left:1rem;top:1rem;background:var(--paper);padding:.5rem}
.maker{font-variant-caps:small-caps;color:var(--accent);letter-spacing:.03em}
.lead{font-size:1.15rem}
.small,figcaption,footer,.reason{color:var(--quiet);font-size:.9rem}
.reason,.notice{font-style:italic}
.notice{border-top:1px solid var(--rule);border-bottom:1px solid var(--rule);padding:.3em 0}
.caution{border-left:.35rem solid var(--ink);padding:.2em 0 .2em .8em}
.caution.care{border-left:.2rem double var(--accent)}
.caution.safety strong:first-child{text-transform:uppercase}
.count{background:var(--tint);padding:.5em .8em}
.steps{list-style:none;padding:0}
.steps>li{margin:1.8em 0;padding-left:2.6rem;position:relative}
.number{font-weight:600;margin:0}
.number .n{position:absolute;left:0;color:var(--accent);font-size:1.25rem}
figure{margin:1.2em 0}
figure svg,figure img{max-width:100%;height:auto}
details{margin:.3em 0}
summary{cursor:pointer;min-height:1.5rem}
.table{overflow-x:auto;margin:1.2em 0}
table{border-collapse:collapse;width:100%;font-family:'Source Sans 3',system-ui,sans-serif;font-size:.92rem;font-variant-numeric:tabular-nums;border-top:2px solid var(--ink);border-bottom:2px solid var(--ink)}
caption{text-align:left;font-weight:600;padding-bottom:.4em}
th,td{padding:.35em .6em;vertical-align:top;border-bottom:1px solid var(--rule);font-weight:400}
thead th{font-weight:600;border-bottom:1.5px solid var(--ink);vertical-align:bottom}
.left{text-align:left}.right{text-align:right}.centre{text-align:center}
tr.group th{text-align:left;font-weight:600;color:var(--accent)}
tr.total th,tr.total td{font-weight:600;border-top:1.5px solid var(--ink)}
dl.facts>div{display:grid;grid-template-columns:minmax(8rem,1fr) 3fr;gap:.2em 1em;border-bottom:1px solid var(--rule);padding:.4em 0}
dl.facts dt,dl.glossary dt{font-weight:600}
dd{margin:0}
dl.glossary dd{margin-left:1.4em}
.f{white-space:nowrap}
.f sup,.f sub{font-size:.68em;line-height:0}
.f sup{vertical-align:.44em;margin-right:-.08em}
.f sub{vertical-align:-.02em;margin-left:-.08em}
.chip{display:inline-block;width:.8em;height:.8em;border:1px solid var(--ink);margin:0 .25em;vertical-align:-.05em}
input[type=checkbox]{width:1.5rem;height:1.5rem;vertical-align:-.4rem}
input[type=text],textarea{font:inherit;min-height:2rem;border:1px solid var(--quiet);background:var(--paper);color:var(--ink);max-width:100%}
textarea{width:100%}
.sizes{border:1px solid var(--rule);padding:.4em .8em;margin:1em 0;position:sticky;top:0;background:var(--paper)}
.sizes label{display:inline-block;min-height:1.8rem;margin-right:1.4em}
.sizes input{width:1.5rem;height:1.5rem;vertical-align:-.4rem}
[data-size="1"] .size-1,[data-size="2"] .size-2,[data-size="3"] .size-3,[data-size="4"] .size-4,[data-size="5"] .size-5,[data-size="6"] .size-6{background:var(--tint);box-shadow:inset 3px 0 var(--accent)}
.stage{background:var(--accent);color:var(--paper);padding:0 .4em;font-weight:700}
.aside{color:var(--quiet);font-size:.92rem;margin:.3em 0}
.aside.have{color:var(--ink)}
.marks{list-style:none;display:flex;flex-wrap:wrap;gap:.3em 1em;padding:0;margin:.4em 0}
.marks li{border-left:.35rem solid var(--ink);padding-left:.5em}
.panel{border:2px solid var(--ink);padding:.4em 1em;margin:1em 0}
.panel .title{font-weight:700;font-size:1.2rem}
.letter{border:1.5px solid var(--accent);color:var(--accent);padding:0 .25em}
.second{font-size:.85em;color:var(--quiet)}
.actions{padding-left:1.6em}
.actions li{margin:.35em 0}
.actions li::marker{color:var(--accent);font-weight:700}
.ticks{border:0;padding:0;margin:1em 0}
.ticks span{display:inline-block;width:.8rem}
ul.tick{list-style:none;padding:0}
nav ul{list-style:none;padding:0}
nav .level-2{padding-left:1.2em}nav .level-3{padding-left:2.4em}
nav .title{font-weight:600}
dfn{font-style:italic}
@media (max-width:30rem){.steps>li{padding-left:0}.number .n{position:static;margin-right:.5em}dl.facts>div{grid-template-columns:1fr}}
@media print{details,.skip,nav{display:none}main,footer{max-width:none;padding:0}.table{overflow:visible}a{color:inherit;text-decoration:none}thead{display:table-header-group}figure,.caution,.count,tr{break-inside:avoid}h2,h3,h4,.number{break-after:avoid}}
"""
