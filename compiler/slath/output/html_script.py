"""What the web page does besides being read: it keeps ticks, words and the chosen size on the reader's own device.

Nothing is sent anywhere. Where a browser keeps nothing the page is as it was.
"""

SCRIPT = """
(function(){var key="slath:"+document.title,kept={};
try{kept=JSON.parse(localStorage.getItem(key))||{}}catch(e){}
var all=document.querySelectorAll("input,textarea");
function shown(){var one=document.querySelector("input[name=size]:checked");document.documentElement.dataset.size=one?one.value:""}
all.forEach(function(box,place){var id=box.type==="radio"?"size-"+box.value:"at-"+place;
if(id in kept){if(box.type==="checkbox"||box.type==="radio"){box.checked=kept[id]}else{box.value=kept[id]}}
box.addEventListener("change",function(){if(box.type==="radio"){Object.keys(kept).forEach(function(one){if(one.indexOf("size-")===0){delete kept[one]}})}
kept[id]=box.type==="checkbox"||box.type==="radio"?box.checked:box.value;
try{localStorage.setItem(key,JSON.stringify(kept))}catch(e){}shown()})});shown()})();
"""
