namespace Bench.Reporting.Html;

/// <summary>A page that needs nothing else, now or in ten years: no script, no reference to anything outside; style, fonts and plots are inside.</summary>
internal static class Page
{
    /// <summary>The whole document.</summary>
    /// <param name="title">What a list of open files shows.</param>
    /// <param name="body">What it says.</param>
    public static SafeHtml Of(string title, SafeHtml body) => Markup.Of(
        $"""
        <!DOCTYPE html>
        <html lang="en">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:">
        <title>{title}</title>
        <style>
        {StyleSheet.Text}</style>
        </head>
        <body>
        {body}
        </body>
        </html>

        """);
}
