"""What pages show: items, findings, drawings and figures arranged for a template."""
