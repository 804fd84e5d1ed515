"""What the trade knows: stocks, settings, words, cautions and tools, each value with what it rests on."""

from slath.trade.settings import default_settings, setting_reason
from slath.trade.stock import Pack, Stock, StockKind
from slath.trade.stocks import all_stocks, find_stock, nearest_stocks, scale_of, suspect_density

__all__ = [
    "Pack",
    "Stock",
    "StockKind",
    "all_stocks",
    "default_settings",
    "find_stock",
    "nearest_stocks",
    "scale_of",
    "setting_reason",
    "suspect_density",
]
